import { Document, isScalar, parseDocument, Scalar, type YAMLSeq } from "yaml";
import { escapedInJson, unseenCharacters } from "../../findings/visible-text.js";

/** Text as it stands inside a list or map of one line, quoted where any reader would take it for something else. */
export function flowText(text: string): string {
  if (PLAIN_WORDS.test(text) && !SPECIAL.test(text)) return text;
  const document = new Document([textNode(text)]);
  (document.contents as unknown as YAMLSeq).flow = true;
  const written = document.toString({ lineWidth: 0, flowCollectionPadding: false });
  // Quoted text may have characters that hide or act on a terminal; they are escaped as in JSON, which YAML reads alike.
  return escapedInJson(written.trim().slice(1, -1));
}

/** Words that no reader takes for something else but the special ones: they begin with a letter and have no signs of YAML. */
const PLAIN_WORDS = /^[A-Za-z](?:[\w -]*\w)?$/u;
/** What YAML 1.1 or 1.2 takes for no text (yaml.org/type/bool.html and null.html; core schema, YAML 1.2.2, 10.3.2). */
const SPECIAL = /^(?:y|n|yes|no|on|off|true|false|null)$/iu;

/** Text that stays text in every reader: quoted where YAML 1.1 or 1.2 would take it for something else, such as NO. */
function textNode(text: string): Scalar<string> {
  const node = new Scalar(text);
  const isPlain = (["1.1", "1.2"] as const).every((version) => {
    const read = parseDocument(text, { version });
    return read.errors.length === 0 && isScalar(read.contents) && read.contents.value === text;
  });
  // As a key it would merge in what follows (yaml.org/type/merge.html).
  if (!isPlain || text === "<<" || unseenCharacters(text).length > 0) node.type = Scalar.QUOTE_DOUBLE;
  return node;
}
