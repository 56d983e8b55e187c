/** One rule of a TextMate grammar without nesting: what it matches and the scope of each capture. */
export interface Rule {
    readonly match: string;
    readonly name?: string;
    readonly captures?: Readonly<Record<string, {
        readonly name: string;
    }>>;
}
export interface Grammar {
    readonly scopeName: string;
    readonly name: string;
    readonly information_for_contributors: readonly string[];
    readonly fileTypes: readonly string[];
    readonly patterns: readonly Rule[];
}
/** The grammar of a cell, from the catalogue of verbs and the table of units; the first rule that fits wins. */
export declare function grammar(): Grammar;
