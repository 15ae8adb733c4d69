/** A pass in words that the generator does not know, for a test that it says so. */
export function oddPass(count: number, values: Float64Array): void {
  for (let n = 0; n < count; n++) {
    switch (values[n]) {
      default:
        values[n] = 1;
    }
  }
}
