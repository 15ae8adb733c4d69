/** What the browser's tests are given by `built-page.ts`. */
declare module 'vitest' {
  interface ProvidedContext {
    /** address of the built page, with its closing slash */
    page: string;
    /** path of the browser's program */
    chromium: string;
  }
}

export {};
