/**
 * Documents as a person writes them, quantities as text included. Apart from the library's main entry because the units
 * of mathjs come with it: a page loads this when the first document is opened.
 */
export { rigDocument } from './rig/read.ts';
export { readWritten } from './units/read-document.ts';
