/** What was answered for a text, again, or is being answered. */
export function remembered<T>(ask: (text: string) => Promise<T>): (text: string) => Promise<T> {
  const answers = new Map<string, Promise<T>>();
  return (text) => {
    const answer = answers.get(text) ?? ask(text);
    answers.set(text, answer);
    return answer;
  };
}
