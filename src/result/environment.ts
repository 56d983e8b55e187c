/** The system's refusal of an operation, as an exception that tells it. */
export type SystemRefusal = Error & { readonly code: string; readonly syscall: string; readonly path?: string };

/** Whether an exception is the system's refusal of an operation, and so no fault of the program. */
export const isSystemRefusal = (error: unknown): error is SystemRefusal =>
  error instanceof Error && 'syscall' in error && 'code' in error && typeof error.code === 'string';

/** Whether it is the refusal of that code, such as `ENOENT`. */
export const isRefusalOf = (error: unknown, code: string): boolean => isSystemRefusal(error) && error.code === code;

/** Whether an exception tells that the machine had no room left in its memory. */
export const isOutOfMemory = (error: unknown): boolean =>
  error instanceof RangeError && /allocation failed/i.test(error.message);

/** What an exception says by itself, as a reason within a sentence. */
export const reasonOfException = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** An exception as a log takes it, with where in the program it came from if it knows. */
export const loggable = (error: unknown): Error | string => (error instanceof Error ? error : String(error));

/** What an exception says, on one line; where in the program it came from is for those who mend it. */
export const wordsOf = (error: unknown): string =>
  error instanceof Error ? `${error.name}: ${error.message}` : String(error);
