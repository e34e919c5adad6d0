import { isolated } from '#calendar/isolate.ts'

/** Short forms as typed, "SGT, SSG", and as data. */
export const codesOf = (text: string): string[] => [...new Set(text.split(/[\s,;]+/).filter(Boolean))]

interface UnlistedProps {
  /** "grade", "arm". */
  kind: string
  codes: readonly string[]
  /** The list of the unit; undefined while it is not known. */
  listed: readonly { readonly code: string }[] | undefined
}

/**
 * Asks about grades or arms that the unit's list does not have: the form they are typed in is sent once somebody says that
 * they are right, and the list has them then. Nothing where all are in it.
 */
export function Unlisted({ kind, codes, listed }: UnlistedProps) {
  if (!listed) return null
  const unlisted = codes.filter((code) => !listed.some((entry) => entry.code === code))
  return unlisted.map((code) => (
    <label key={code} className="unlisted">
      <input type="checkbox" required /> The list of {kind}s has no <b>{isolated(code)}</b>. It is right: add it.
    </label>
  ))
}

/** What the list of the unit has, to choose from while one types. */
export function ListedChoices({ id, listed }: { id: string; listed: UnlistedProps['listed'] }) {
  return (
    <datalist id={id}>
      {listed?.map(({ code }) => (
        <option key={code} value={code} />
      ))}
    </datalist>
  )
}
