import type { DateAnswer, ImportColumns } from '#contract/imports/imports.ts'
import { SelectField } from '../../ui/field.tsx'
import { figure } from '../../words/format-number.ts'
import { DATE_ANSWERS } from './format-import.ts'

interface DateQuestionsProps {
  questions: ImportColumns['questions']
  answers: Readonly<Record<string, DateAnswer>>
  onAnswer: (key: string, answer: DateAnswer) => void
}

/** Dates that may mean several days are asked about, once a column. */
export function DateQuestions({ questions, answers, onAnswer }: DateQuestionsProps) {
  return questions.map(({ key, title, answers: possible, examples, rows }) => (
    <SelectField
      key={key}
      className="import-question"
      label={`How are the dates under “${title}” to be read?`}
      hint={`${figure(rows)} may mean several days, like ${examples.join(', ')}. Only somebody who knows the file can say.`}
      required
      value={answers[key] ?? ''}
      onChange={(event) => onAnswer(key, event.target.value as DateAnswer)}
    >
      <option value="" disabled>
        choose
      </option>
      {possible.map((answer) => (
        <option key={answer} value={answer}>
          {DATE_ANSWERS[answer]}
        </option>
      ))}
    </SelectField>
  ))
}
