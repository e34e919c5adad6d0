/** The ids that things were given when they were loaded, by the name the plan knows them by. */
export interface Ids {
  readonly units: Map<string, string>
  readonly soldiers: Map<string, string>
  readonly testDays: Map<string, string>
  readonly suspensions: Map<string, string>
  /** Amendments that wait for a second person, by sheet. */
  readonly proposals: Map<string, string>
}

/** The id of a name. Throws an Error where nothing of that name was loaded. */
export function idOf(ids: ReadonlyMap<string, string>, name: string): string {
  const id = ids.get(name)
  if (id === undefined) throw new Error(`The demo's plan names ${name}, which is not loaded.`)
  return id
}

/** The same where there may be none. */
export const idOrNull = (ids: ReadonlyMap<string, string>, name: string | null): string | null =>
  name === null ? null : idOf(ids, name)
