import { formatTimesAsked } from '../words/format-times-asked.ts'

interface TimesAskedProps {
  day: string
  from: string
  to: string
  zone: string
  today: string
}

/** Times that are hardly meant are asked about; the form is sent once somebody says that they are. */
export function TimesAsked(props: TimesAskedProps) {
  return formatTimesAsked(props).map((question) => (
    <label key={question} className="unlisted">
      <input type="checkbox" required /> {question}
    </label>
  ))
}
