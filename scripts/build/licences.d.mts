/** Licence texts of packages that bring none, by name. */
export const licenceTexts: Readonly<Record<string, string>>;
/** Licences of packages that bring the text and do not name it. */
export const licenceNames: Readonly<Record<string, string>>;
