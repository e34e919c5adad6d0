import type { Module } from './read-imports.ts'

/** A round of imports, as the files in it, the first repeated at the end; null: there is none. */
export function findCycle(modules: readonly Module[]): string[] | null {
  const targets = new Map(modules.map(({ file, imports }) => [file, imports.flatMap((each) => each.file ?? [])]))
  const done = new Set<string>()
  const trail: string[] = []
  const visit = (file: string): string[] | null => {
    if (trail.includes(file)) return [...trail.slice(trail.indexOf(file)), file]
    if (done.has(file)) return null
    trail.push(file)
    for (const target of targets.get(file) ?? []) {
      const cycle = visit(target)
      if (cycle !== null) return cycle
    }
    trail.pop()
    done.add(file)
    return null
  }
  for (const { file } of modules) {
    const cycle = visit(file)
    if (cycle !== null) return cycle
  }
  return null
}
