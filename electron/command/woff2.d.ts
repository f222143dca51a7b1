/** A font as a data address, put into the bundle when it is built. */
declare module '*.woff2?inline' {
  const data: string
  export default data
}
