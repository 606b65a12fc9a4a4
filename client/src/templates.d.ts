/** A pattern to begin with; the bundler puts in its text. */
declare module "*.crochet" {
  const content: string;
  export default content;
}
