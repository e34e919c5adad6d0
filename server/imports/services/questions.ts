import type { ImportQuestion } from '../../contract/imports/imports.ts'

type Asked = Omit<ImportQuestion, 'rows' | 'firstRows' | 'answer' | 'key'>

/** What only somebody who knows the file can say: each thing is asked once, however many rows it is about. */
export interface Questions {
  /** Asks. Out: what was answered; null while it is open. */
  ask(rows: readonly number[], question: Asked): string | null
  readonly all: readonly ImportQuestion[]
}

const SHOWN = 5

/** Collects questions; `answers` are those given before, by key. */
export function questionList(answers: Readonly<Record<string, string>>): Questions {
  const asked = new Map<string, ImportQuestion>()
  return {
    ask(rows, question) {
      const key = [question.about, question.rosterNumber, question.given].filter((part) => part !== null).join(':')
      const given = answers[key]
      const answer = given !== undefined && question.choices.includes(given) ? given : null
      const before = asked.get(key)
      asked.set(key, {
        key,
        ...question,
        rows: (before?.rows ?? 0) + rows.length,
        firstRows: [...(before?.firstRows ?? []), ...rows].slice(0, SHOWN),
        answer,
      })
      return answer
    },
    get all() {
      return [...asked.values()]
    },
  }
}
