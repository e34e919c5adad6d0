import path from 'node:path'
import type { Node, SourceFile } from 'typescript/unstable/ast'
import {
  isCallExpression,
  isNoSubstitutionTemplateLiteral,
  isPropertyAccessExpression,
  isSpreadElement,
  isTaggedTemplateExpression,
} from 'typescript/unstable/ast/is'
import { API, type Checker, type TypeReference } from 'typescript/unstable/sync'
import type { Shape } from './shape.ts'
import { TypeReader, UnreadableType } from './type-reader.ts'

export interface RawQuery {
  /** `server/units/db/units.db.ts:12` */
  readonly place: string
  /** What is written between its values. */
  readonly text: string
  /** The place of its answer's shape. */
  readonly answer: number
}

export interface RawQueries {
  readonly shapes: readonly Shape[]
  readonly queries: readonly RawQuery[]
  /** Places of queries whose answers nothing can be said about, with why. */
  readonly unreadable: readonly string[]
}

/** What a statement is known by: its parts, as a tag is handed them. */
export const textOf = (parts: readonly string[]): string => parts.join('\0')

/**
 * Finds all `$queryRaw` of some files, and works out by TypeScript's own checker what each says that it answers.
 * @param root the folder that places are named from
 * @param settings path of the tsconfig.json whose settings hold for the files
 */
export function readQueries(root: string, settings: string, files: readonly string[]): RawQueries {
  // A project of these files and what they import takes a quarter of the time of the whole.
  const config = slashed(path.join(path.dirname(settings), 'tsconfig.of-queries.json'))
  const pathOf = (file: string) => slashed(path.join(root, file))
  const written = JSON.stringify({ extends: slashed(settings), include: [], files: files.map(pathOf) })
  const api = new API({
    cwd: root,
    fs: {
      readFile: (file) => (file === config ? written : undefined),
      fileExists: (file) => (file === config ? true : undefined),
    },
  })
  try {
    const { program, checker } = api.updateSnapshot({ openProjects: [config] }).getProject(config)!
    const reader = new TypeReader(checker)
    const queries: RawQuery[] = []
    const unreadable: string[] = []
    for (const file of files) {
      const source = program.getSourceFile(pathOf(file))!
      for (const node of mentionsUnder(source)) {
        const place = `${file}:${lineOf(node, source)}`
        try {
          const query = readQuery(node, checker, reader)
          if (query) queries.push({ place, ...query })
        } catch (error) {
          if (!(error instanceof UnreadableType)) throw error
          unreadable.push(`${place}: ${error.message}`)
        }
      }
    }
    return { shapes: reader.shapes, queries, unreadable }
  } finally {
    api.close()
  }
}

const slashed = (file: string) => file.replaceAll(path.sep, '/')

/** Every `client.$queryRaw…` */
function mentionsUnder(node: Node): Node[] {
  const found: Node[] = isPropertyAccessExpression(node) && node.name.text.startsWith('$queryRaw') ? [node] : []
  node.forEachChild((child) => {
    found.push(...mentionsUnder(child))
  })
  return found
}

const lineOf = (node: Node, source: SourceFile) => source.text.slice(0, node.end).split('\n').length

/** Null where it only hands on what somebody else has written. */
function readQuery(node: Node, checker: Checker, reader: TypeReader): Omit<RawQuery, 'place'> | null {
  const asked = node.parent
  if (isCallExpression(asked) && asked.arguments.length === 1 && isSpreadElement(asked.arguments[0]!)) return null
  if (!isTaggedTemplateExpression(asked)) throw new UnreadableType('It is not written as a tag: $queryRaw`…`')
  const [answer] = checker.getTypeArguments(checker.getTypeAtLocation(asked) as TypeReference)
  const { template } = asked
  const parts = isNoSubstitutionTemplateLiteral(template)
    ? [template.text]
    : [template.head.text, ...template.templateSpans.map((span) => span.literal.text)]
  return { text: textOf(parts), answer: reader.read(answer!) }
}
