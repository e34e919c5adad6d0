import { useQuery } from '@tanstack/react-query'
import { sessionQuery } from '../../api/accounts/session.ts'
import { ROLE_WORDS } from '../../domain/accounts/roles.ts'
import { Button } from '../../ui/button.tsx'
import { SelectField } from '../../ui/field.tsx'
import { Page } from '../../ui/page.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { ROLE_CARDS } from './role-cards.ts'
import './help.css'

/** One page for each role, to print and hand over: what to do, in what order, with which button. */
export default function CardsPage() {
  const [filters, setFilters] = useFilters(['role'])
  const own = useQuery(sessionQuery).data?.roles ?? []
  const card =
    ROLE_CARDS.find(({ role }) => role === filters.role) ??
    ROLE_CARDS.find(({ role }) => own.includes(role)) ??
    ROLE_CARDS.at(-1)!
  const words = ROLE_WORDS.find(({ role }) => role === card.role)!
  return (
    <Page
      title="Role cards"
      answer={`${words.title}: what you do, ${card.when}.`}
      why={`Your account ${words.lets}.`}
      controls={
        <>
          <SelectField label="Role" value={card.role} onChange={(event) => setFilters({ role: event.target.value })}>
            {ROLE_CARDS.map(({ role }) => (
              <option key={role} value={role}>
                {ROLE_WORDS.find((one) => one.role === role)!.title}
              </option>
            ))}
          </SelectField>
          <Button className="push" onClick={() => window.print()}>
            Print
          </Button>
        </>
      }
    >
      <div className="role-card">
        <ol>
          {card.steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
        <h2>Keep in mind</h2>
        <ul>
          {card.mind.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </div>
    </Page>
  )
}
