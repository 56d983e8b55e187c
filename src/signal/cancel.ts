/** Thrown by long work when its `cancelled` callback says true; never shown to a reader. */
export class Cancelled extends Error {
  constructor() {
    super('cancelled');
    this.name = 'Cancelled';
  }
}

/** Asked now and then by long work; true stops it with `Cancelled`. */
export type CancelCheck = () => boolean;
