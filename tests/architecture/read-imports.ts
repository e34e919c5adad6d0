import path from 'node:path'
import { parseSync } from 'vite'

/** One import, whatever its form: static, dynamic, re-export, or of a type only. */
export interface Import {
  /** As written. */
  specifier: string
  /** Path in the project, or null for a package. */
  file: string | null
  isTypeOnly: boolean
  /** Whether it is read only once the code comes to it. */
  isLate: boolean
}

export interface Module {
  file: string
  imports: Import[]
  /** Whether it has nothing but re-exports. */
  isBarrel: boolean
  readsEnvironment: boolean
}

/**
 * Parses sources and lists what they import.
 * @param sources text by path in the project, with slashes
 * @param aliases as in "imports" of package.json: `#contract/*` to `./server/contract/*`
 * @throws Error for a source that can't be parsed: a file not seen must not look like a file without imports
 */
export function readImports(sources: ReadonlyMap<string, string>, aliases: Record<string, string>): Module[] {
  return [...sources].map(([file, source]) => {
    const { program, errors } = parseSync(file, source)
    if (errors.length > 0) throw new Error(`${file}: ${errors[0]?.message}`)
    const nodes = [...nodesUnder(program as unknown as Node)]
    const body = program.body as unknown as Node[]
    return {
      file,
      imports: nodes.flatMap((node) => importOf(node, file, aliases)),
      isBarrel: body.length > 0 && body.every(({ type, source }) => /^Export/.test(type) && Boolean(source)),
      readsEnvironment: nodes.some(({ type, property, object }) => {
        const isEnv = type === 'MemberExpression' && (property as Node | undefined)?.name === 'env'
        return isEnv && (object as Node | undefined)?.name === 'process'
      }),
    }
  })
}

interface Node {
  type: string
  [key: string]: unknown
}

function* nodesUnder(node: Node): Generator<Node> {
  yield node
  for (const value of Object.values(node)) {
    for (const child of Array.isArray(value) ? value : [value]) {
      if (typeof child?.type === 'string') yield* nodesUnder(child)
    }
  }
}

function importOf(node: Node, file: string, aliases: Record<string, string>): Import[] {
  const source = (node.source ?? node.argument) as Node | null | undefined
  const isImport = ['ImportDeclaration', 'ExportNamedDeclaration', 'ExportAllDeclaration', 'ImportExpression']
  if (!source || ![...isImport, 'TSImportType'].includes(node.type)) return []
  const specifier = textOf(source)
  const isLate = node.type === 'ImportExpression'
  return [{ specifier, file: fileOf(specifier, file, aliases), isTypeOnly: isTypeOnly(node), isLate }]
}

/** Of a template, what stands before its first blank. */
function textOf(source: Node): string {
  if (source.type === 'TSLiteralType') return textOf(source.literal as Node)
  if (source.type === 'TemplateLiteral') return (source.quasis as { value: { cooked: string } }[])[0]!.value.cooked
  if (typeof source.value !== 'string') throw new Error(`An import of what is not written out: ${source.type}`)
  return source.value
}

function isTypeOnly({ type, importKind, exportKind, specifiers }: Node): boolean {
  if (type === 'TSImportType' || importKind === 'type' || exportKind === 'type') return true
  const named = (specifiers ?? []) as Node[]
  return named.length > 0 && named.every((each) => each.importKind === 'type' || each.exportKind === 'type')
}

function fileOf(specifier: string, importer: string, aliases: Record<string, string>): string | null {
  if (specifier.startsWith('.')) return path.posix.join(path.posix.dirname(importer), specifier)
  for (const [pattern, target] of Object.entries(aliases)) {
    const [before = ''] = pattern.split('*')
    if (specifier.startsWith(before)) return path.posix.normalize(target.replace('*', specifier.slice(before.length)))
  }
  return null
}
