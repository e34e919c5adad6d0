import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { calendarLinkQuery, makeCalendarLink, revokeCalendarLink } from '../../../api/calendar/calendar.ts'
import { Button } from '../../../ui/button.tsx'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { formatMoment } from '../../../words/format-moment.ts'

/** The secret address at which a calendar program reads what concerns one: made, shown once, and ended here. */
export function CalendarLinkPart({ today }: { today: string }) {
  const client = useQueryClient()
  const state = useQuery(calendarLinkQuery)
  const [asks, setAsks] = useState<'anew' | 'end' | null>(null)
  const renew = () => client.invalidateQueries({ queryKey: calendarLinkQuery.queryKey })
  const make = useMutation({ mutationFn: makeCalendarLink, onSuccess: renew })
  const address = make.data && `${location.origin}/calendar/${make.data.token}.ics`
  const since = state.data?.createdAt
  return (
    <div className="reasoned-form">
      <p>
        {since
          ? `There is a link since ${formatMoment(since, today)}. It was shown once; if it is lost, make a new one.`
          : 'A calendar on your phone can follow your tests, retests and ceremonies by a secret link.'}
      </p>
      {address && since && (
        <TextField
          label="Subscribe to this address in your calendar"
          readOnly
          value={address}
          hint="Whoever has the address can read your dates. Names of others are not in it."
          onFocus={(event) => event.target.select()}
        />
      )}
      <div className="reasoned-form-buttons">
        {state.data && !since && (
          <Button onClick={() => make.mutate()} disabled={make.isPending}>
            Make a calendar link
          </Button>
        )}
        {address && since && <Button onClick={() => navigator.clipboard.writeText(address)}>Copy</Button>}
        {since && <Button onClick={() => setAsks('anew')}>Make a new link</Button>}
        {since && <Button onClick={() => setAsks('end')}>End the link</Button>}
      </div>
      {make.error && <Failure error={make.error} />}
      {state.error && !state.data && <Failure error={state.error} onRetry={state.refetch} />}
      {asks === 'anew' && (
        <ConfirmDialog
          title="Make a new calendar link?"
          confirm="Make a new link"
          onConfirm={() => make.mutateAsync()}
          onClose={() => setAsks(null)}
        >
          <p>Calendars that follow the present link stop at once, until they are given the new one.</p>
        </ConfirmDialog>
      )}
      {asks === 'end' && (
        <ConfirmDialog
          title="End the calendar link?"
          confirm="End the link"
          onConfirm={async () => {
            await revokeCalendarLink()
            make.reset()
            await renew()
          }}
          onClose={() => setAsks(null)}
        >
          <p>Calendars that follow it stop at once. What they fetched before may stay in them.</p>
        </ConfirmDialog>
      )}
    </div>
  )
}
