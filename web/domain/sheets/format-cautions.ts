/** Words that say nothing by themselves. */
const SMALL = new Set(['a', 'an', 'and', 'are', 'at', 'for', 'is', 'of', 'on', 'the', 'this', 'to'])

/** What holds for every test with an arm: which of a unit's arms have an edge, nobody told us. */
export const WITH_ARMS =
  'Keep the unit’s own safety distance to edged weapons and every other arm, before, behind and at every turn. On “cease” everyone stops, at once.'

const WITHOUT_ARMS =
  'Keep the unit’s own safety distance before, behind, at every turn and to whatever is carried. On “cease” everyone stops, at once.'

/** What holds for every test, whatever a standard says. */
export const ALWAYS: readonly string[] = [
  'Heat, hard marching, long standing and locked knees make people faint. Water, shade and medical help are planned for.',
  'Unit procedure, the safety officer and licensed medical staff come before this sheet and anything this tool says.',
]

/** The words of a sentence that say something, singular and in small letters. */
const wordsOf = (sentence: string): Set<string> =>
  new Set(
    (
      sentence
        .toLowerCase()
        .replace(/[’']s\b/g, '')
        .match(/\p{L}+/gu) ?? []
    )
      .filter((word) => !SMALL.has(word))
      .map((word) => word.replace(/s$/, '')),
  )

/**
 * Cautions of one or several standards, each said once: left out is what the general ones, or another one, say already in
 * the same words and more. The general ones come first, and speak of arms where one of the standards is tested with any.
 */
export function cautionsOnce(
  standards: readonly { readonly cautions: readonly string[]; readonly arms: readonly string[] }[],
): string[] {
  const distance = standards.some(({ arms }) => arms.length > 0) ? WITH_ARMS : WITHOUT_ARMS
  const all = [...new Set([distance, ...ALWAYS, ...standards.flatMap(({ cautions }) => cautions)])]
  const said = all.map(wordsOf)
  const isIn = (one: Set<string>, other: Set<string>) => [...one].every((word) => other.has(word))
  return all.filter(
    (_, index) =>
      !said.some(
        (other, at) => at !== index && isIn(said[index]!, other) && (at < index || !isIn(other, said[index]!)),
      ),
  )
}
