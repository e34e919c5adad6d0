import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { InvitationLinks, SoldierWithout } from '#contract/accounts/several.ts'
import { invalidateAccounts } from '../../../api/accounts/accounts.ts'
import { inviteAccounts, proposeAccountNames } from '../../../api/accounts/several.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { paths } from '../../../paths.ts'
import { Failure } from '../../../ui/failure.tsx'
import { Page } from '../../../ui/page.tsx'
import { today as todayIn } from '../../../words/today.ts'
import { ChoosePart } from './choose-part.tsx'
import { type DraftAccount, draftAccount, toInvitation } from './draft-account.ts'
import { formatSeveral, WHY_SEVERAL } from './format-several.ts'
import { LinksPart } from './links-part.tsx'
import { NamesPart } from './names-part.tsx'
import './several.css'

/** Accounts for many at once: who, with which name and roles, and the links to hand out. */
export default function SeveralAccountsPage() {
  const client = useQueryClient()
  const units = useQuery(unitsQuery).data ?? []
  const [chosen, setChosen] = useState<ReadonlyMap<string, SoldierWithout>>(new Map())
  const [drafts, setDrafts] = useState<readonly DraftAccount[] | null>(null)
  const [links, setLinks] = useState<InvitationLinks['items'] | null>(null)
  const naming = useMutation({
    mutationFn: () => proposeAccountNames([...chosen.keys()]),
    onSuccess: ({ items }) => setDrafts(items.map(({ soldierId, name }) => draftAccount(chosen.get(soldierId)!, name))),
  })
  const making = useMutation({
    mutationFn: (asked: readonly DraftAccount[]) => inviteAccounts({ accounts: asked.map(toInvitation) }),
    onSuccess: ({ items }) => {
      setLinks(items)
      return invalidateAccounts(client)
    },
  })
  const step = links ? 'links' : drafts ? 'names' : 'choose'
  return (
    <Page
      title="Accounts for many"
      answer={formatSeveral(step, links?.length ?? drafts?.length ?? chosen.size)}
      why={WHY_SEVERAL[step]}
      controls={!links && <Link href={paths.accounts}>All accounts</Link>}
    >
      {step === 'choose' && (
        <>
          <ChoosePart
            units={units}
            chosen={chosen}
            onChosen={setChosen}
            busy={naming.isPending}
            onNext={() => naming.mutate()}
          />
          {naming.error && <Failure error={naming.error} />}
        </>
      )}
      {drafts && !links && (
        <NamesPart
          units={units}
          drafts={drafts}
          onDrafts={setDrafts}
          error={making.error}
          busy={making.isPending}
          onMake={() => making.mutate(drafts)}
          onBack={() => {
            making.reset()
            setDrafts(null)
          }}
        />
      )}
      {drafts && links && <LinksPart drafts={drafts} links={links} today={todayIn(null)} />}
    </Page>
  )
}
