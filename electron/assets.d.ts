/** A file that the build puts beside the bundle; the import is its path there. */
declare module '*?asset' {
  const path: string
  export default path
}
