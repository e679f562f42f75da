/** What the memory host needs of Node's assertions, in a page. */
export default {
  fail(message: string): never {
    throw new Error(message);
  },
};
