/** Texts that are kept by keys of letters, digits, points and hyphens. Nobody depends on them: what can't be kept is not. */
export interface Texts {
  get(key: string): Promise<string | undefined>;
  /** Whether any text is kept. */
  any(): Promise<boolean>;
  put(key: string, text: string): Promise<void>;
  forget(key: string): Promise<void>;
}
