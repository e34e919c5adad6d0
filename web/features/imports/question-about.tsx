import type { ImportQuestion } from '#contract/imports/imports.ts'

/** What is asked, with what is here and what the file says beside each other. */
export function QuestionAbout({ question: { about, known, given, rosterNumber } }: { question: ImportQuestion }) {
  if (about !== 'name') {
    return (
      <p>
        The list of {about}s has no <b>{given}</b>.
      </p>
    )
  }
  return (
    <dl className="import-beside">
      <div>
        <dt>On the roster as {rosterNumber}</dt>
        <dd>
          <bdi>{known}</bdi>
        </dd>
      </div>
      <div>
        <dt>In the file</dt>
        <dd>
          <bdi>{given}</bdi>
        </dd>
      </div>
    </dl>
  )
}
