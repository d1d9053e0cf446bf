interface ImportMetaEnv {
  /** Of the page and its build. */
  readonly VERSION: string;
}
