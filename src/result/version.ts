/** Version of the program, as package.json has it. */
export const version = '0.1.0';

/** How a record and a report name what made them. */
export const tool = `washboard ${version}`;
