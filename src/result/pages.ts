/** A code's page in the reference: why it is said, a cell that has it and the same put right. */
export interface MessagePage {
  readonly title: string;
  readonly why: string;
  readonly wrong: string;
  readonly right: string;
}

/** The pages of a room's codes; leaving one out does not compile. */
export type MessagePages<Facts extends object> = { readonly [Code in keyof Facts]: MessagePage };

export const page = (title: string, why: string, wrong: string, right: string): MessagePage => ({
  title,
  why,
  wrong,
  right,
});
