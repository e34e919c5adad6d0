import { useMutation, useQueryClient } from '@tanstack/react-query'
import type { OwnMail } from '#contract/mail/mail.ts'
import { chooseMail, ownMailQuery } from '../../../api/mail/own-mail.ts'
import { Failure } from '../../../ui/failure.tsx'
import { SelectField } from '../../../ui/field.tsx'

type Choice = OwnMail['choices'][number]

const KINDS: Record<Choice['kind'], { label: string; hint: string }> = {
  bookings: { label: 'Bookings and due days', hint: 'Made, moved, called off, or not needed any more.' },
  held: { label: 'Held sheets', hint: 'Held, decided, or two graders differ.' },
  named: { label: 'Sheets that name you', hint: 'Entered by others, amended, appealed.' },
  people: { label: 'Requests between units', hint: 'A soldier is asked for or answered about; a sponsor ends.' },
  awards: { label: 'Approvals and extensions', hint: 'A certification waits, was decided about, or extended.' },
  lapses: { label: 'Certifications that lapse', hint: 'Thirty days ahead, once.' },
  week: { label: 'The week', hint: 'What changed, and what there is to do.' },
}

/** What comes when, each kept as soon as it is chosen. */
export function MailChoices({ mail: { choices, hour } }: { mail: OwnMail }) {
  const client = useQueryClient()
  const choose = useMutation({
    mutationFn: chooseMail,
    onSuccess: (mail) => client.setQueryData(ownMailQuery.queryKey, mail),
  })
  const clock = `${String(hour ?? 0).padStart(2, '0')}:00`
  const says: Record<Choice['timing'], string> = {
    'at once': 'at once',
    daily: `daily, at ${clock}`,
    weekly: `Mondays, at ${clock}`,
    never: 'never',
  }
  return (
    <div className="account-mail-choices">
      {choices.map(({ kind, timing, timings }) => (
        <SelectField
          key={kind}
          label={KINDS[kind].label}
          hint={KINDS[kind].hint}
          value={timing}
          disabled={choose.isPending}
          onChange={({ target }) => {
            const chosen = timings.find((one) => one === target.value)
            if (chosen) choose.mutate({ choices: [{ kind, timing: chosen }] })
          }}
        >
          {timings.map((one) => (
            <option key={one} value={one}>
              {says[one]}
            </option>
          ))}
        </SelectField>
      ))}
      <p className="muted small">
        As set at first: bookings at once, all else once a day, the week on Mondays. A mail names only whom you may see
        when it is sent, and every link asks for sign-in.
      </p>
      {choose.error && <Failure error={choose.error} />}
    </div>
  )
}
