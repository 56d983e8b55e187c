/** Marks that only answer the pointer: their names begin so, and a picture on paper leaves them out. */
export const stripName = 'pointer';
