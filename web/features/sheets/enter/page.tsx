import { useQuery } from '@tanstack/react-query'
import { sessionQuery } from '../../../api/accounts/session.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { Page } from '../../../ui/page.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { EntryDesk } from './entry-desk.tsx'
import { useAmendment } from './use-amendment.ts'
import { usePractice } from './use-practice.ts'

/**
 * Entry of a paper sheet, or, with `?amend=` and a sheet's id, of what is to change on a stored one. With
 * `?purpose=practice`, and for who only coaches, of practice that one led oneself, of a `candidate` where one is named.
 */
export default function EnterPage() {
  const [{ amend, purpose, candidate }] = useFilters(['amend', 'purpose', 'candidate'])
  const session = useQuery(sessionQuery).data
  const standards = useQuery(standardsQuery)
  const units = useQuery(unitsQuery)
  const amendment = useAmendment(amend, standards.data, units.data)
  const practice = usePractice(session ?? null, purpose === 'practice', candidate)
  const error = standards.error ?? units.error ?? amendment.error
  if (!session || !standards.data || !units.data || (amend && !amendment.draft) || practice.pending) {
    return <Page title="Enter a sheet" error={error} onRetry={() => location.reload()} focusElsewhere />
  }
  return (
    <EntryDesk
      key={amend}
      accountId={session.accountId}
      standards={standards.data}
      units={units.data}
      amendment={amendment.draft}
      begin={amend ? null : practice.begin}
    />
  )
}
