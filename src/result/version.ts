/** Version of the program, as package.json has it. */
export const version = '0.1.0';
