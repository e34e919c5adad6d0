import { paths } from '../../web/paths.ts'

export type Screen = keyof typeof paths

/** What stands in an address for `:id` and the like, by the part of the path before it. */
export type Things = Readonly<Record<string, string>>

/** Screens that are seen without a session. */
export const DOORWAYS: readonly Screen[] = ['signIn', 'setUp', 'welcome', 'verify']

/** Every screen of the client with an address that shows something. Throws where a new path has nothing to stand for its parameter. */
export function addressesOf(things: Things): [Screen, string][] {
  return (Object.entries(paths) as [Screen, string][]).map(([screen, path]) => {
    // Two parameters on end, as a soldier and a standard, have one thing that is both: "id/code".
    const address = path.replace(/([\w-]+)((?:\/:\w+)+)/, (_, kind: string, parameters: string) => {
      const thing = things[kind]
      if (thing === undefined)
        throw new Error(`${path}: say what stands for ${parameters}, in the things of "${kind}".`)
      return `${kind}/${thing}`
    })
    return [screen, address]
  })
}
