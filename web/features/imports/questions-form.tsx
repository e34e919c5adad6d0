import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import type { Import, ImportQuestion } from '#contract/imports/imports.ts'
import { checkImport } from '../../api/imports/imports.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { SelectField } from '../../ui/field.tsx'
import { Section } from '../../ui/section.tsx'
import { formatChoice, formatOpenQuestions, formatWhere } from './format-questions.ts'
import { QuestionAbout } from './question-about.tsx'

interface QuestionsFormProps {
  job: Import
  onBegun: () => void
}

/** What only somebody who knows the file can say: who is meant, and which grades and arms are new. Then it is checked again. */
export function QuestionsForm({ job, onBegun }: QuestionsFormProps) {
  const { questions } = job
  const [answers, setAnswers] = useState<Readonly<Record<string, string>>>(
    Object.fromEntries(questions.flatMap(({ key, answer }) => (answer === null ? [] : [[key, answer]]))),
  )
  const checking = useMutation({
    mutationFn: () => checkImport(job.id, { kind: job.kind, dates: {}, answers }),
    onSuccess: onBegun,
  })
  const open = questions.filter(({ key }) => !answers[key])
  const alike = open.filter(({ about }) => about !== 'name')
  const answerAll = (which: readonly ImportQuestion[], answer: string) =>
    setAnswers({ ...answers, ...Object.fromEntries(which.map(({ key }) => [key, answer])) })
  return (
    <Section title="Only you can say" note={formatOpenQuestions(open.length)}>
      <form
        className="import-form"
        onSubmit={(event) => {
          event.preventDefault()
          checking.mutate()
        }}
      >
        {alike.length > 1 && (
          <p>
            <Button onClick={() => answerAll(alike, 'add')}>All {alike.length} new entries are right: add them</Button>
          </p>
        )}
        <ul className="import-questions">
          {questions.map((question) => (
            <li key={question.key}>
              <QuestionAbout question={question} />
              <SelectField
                label="What is right?"
                hint={formatWhere(question)}
                value={answers[question.key] ?? ''}
                onChange={(event) => setAnswers({ ...answers, [question.key]: event.target.value })}
              >
                <option value="">not said: the rows stay out</option>
                {question.choices.map((choice) => (
                  <option key={choice} value={choice}>
                    {formatChoice(question, choice)}
                  </option>
                ))}
              </SelectField>
            </li>
          ))}
        </ul>
        {checking.error && <Failure error={checking.error} />}
        <p>
          <Button
            type="submit"
            kind="main"
            disabled={checking.isPending || questions.every(({ key, answer }) => (answers[key] || null) === answer)}
          >
            Check it again with these answers
          </Button>{' '}
          <span className="import-aside">Nothing is stored by it.</span>
        </p>
      </form>
    </Section>
  )
}
