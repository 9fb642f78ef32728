/** Pieces of the SQL that reports are made with. */

/** Places for `n` parameters: '?, ?, ?'. */
export const marks = (n: number): string => Array(n).fill('?').join(', ');

/** Text that LIKE … ESCAPE '\' finds as it stands. */
export const escapeLike = (text: string): string => text.replace(/[\\%_]/g, (c) => `\\${c}`);
