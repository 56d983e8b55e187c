/** Name of the font of figures in print, which is shipped in `media/fonts`. */
export const printFont = 'Arimo';
