import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import { sessionQuery } from '../../api/accounts/session.ts'
import { cancelCeremony, ceremonyQuery, nameSoldiers } from '../../api/ceremonies/ceremonies.ts'
import { useMay } from '../../api/use-may.ts'
import { formatPosts, formatWhyShort } from '../../domain/ceremonies/format-ceremony.ts'
import { formatNamed } from '../../domain/ceremonies/format-proposal.ts'
import { Formation } from '../../parts/ceremonies/formation.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { UndoNotice } from '../../ui/undo-notice.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { Alternates } from './alternates.tsx'
import { Asks } from './asks.tsx'
import { CancelDialog } from './cancel-dialog.tsx'
import { Outlook } from './outlook.tsx'
import { PostDialog } from './post-dialog.tsx'
import { ShortPosts } from './short-posts.tsx'
import { Times } from './times.tsx'
import { useWords } from './use-words.ts'

interface Done {
  text: string
  names: { postId: string; soldierId: string | null }[]
}

/** One ceremony: its posts as they form up, who could take those that are short, alternates, times, and one's own people. */
export default function CeremonyPage({ id }: { id: string }) {
  const [filters, setFilters] = useFilters(['post', 'unitId'])
  const client = useQueryClient()
  const query = useQuery(ceremonyQuery(id))
  const session = useQuery(sessionQuery).data
  const ceremony = query.data
  const words = useWords(ceremony?.unitId)
  const mayPlan = useMay('plan-ceremonies')
  const [done, setDone] = useState<Done | null>(null)
  const [isLeaving, setLeaving] = useState(false)
  if (!ceremony) return <Page title="Ceremony" error={query.error} onRetry={query.refetch} />

  const refresh = () => client.invalidateQueries({ queryKey: ['ceremonies'] })
  const name = async (text: string, names: Done['names']) => {
    const before = names.map(({ postId }) => ({
      postId,
      soldierId: ceremony.formation.find((post) => post.id === postId)?.soldier?.id ?? null,
    }))
    try {
      await nameSoldiers(id, ceremony.version, names)
      setDone({ text, names: before })
      setFilters({ post: '' })
    } finally {
      await refresh()
    }
  }
  const undo = async () => {
    if (done) await nameSoldiers(id, ceremony.version, done.names)
    await refresh()
  }
  const { may, cancelReason } = ceremony
  const open = ceremony.formation.find((post) => post.id === filters.post)
  return (
    <Page
      title={ceremony.title}
      answer={formatPosts(ceremony, words.today)}
      why={formatWhyShort(ceremony.formation)}
      controls={
        <>
          <Link href={addressTo(paths.roster, { id })} className="button button-main">
            Roster to print
          </Link>
          {may === 'plan' && (
            <Link href={addressTo(paths.ceremonyEdit, { id })} className="button">
              Change the plan
            </Link>
          )}
          {mayPlan && (
            <Link href={addressTo(paths.newCeremony, { copy: id })} className="button">
              Copy as a new one
            </Link>
          )}
          {may === 'plan' && <Button onClick={() => setLeaving(true)}>Call it off</Button>}
        </>
      }
    >
      {cancelReason !== null && (
        <Notice>
          <p>Called off: {cancelReason}</p>
        </Notice>
      )}
      {done && <UndoNotice text={done.text} onUndo={undo} onClose={() => setDone(null)} />}
      <div className="columns">
        <Section title="Posts" note="as they form up, front rank first, seen from the front">
          <Formation
            posts={ceremony.formation}
            action={
              may === 'look'
                ? undefined
                : (post) =>
                    post.otherUnit && may === 'name' ? null : (
                      <Button kind="quiet" onClick={() => setFilters({ post: post.id })}>
                        {post.soldier || post.otherUnit ? 'Change' : 'Name somebody'}
                        <span className="out-of-sight">: {post.title}</span>
                      </Button>
                    )
            }
          />
        </Section>
        <div>
          <Section title="Short posts" note="and why">
            <ShortPosts
              ceremony={ceremony}
              words={words}
              onPost={(post) => setFilters({ post })}
              onTake={(posts) =>
                name(
                  formatNamed(posts, ceremony.formation),
                  posts.map(({ postId, soldier }) => ({ postId, soldierId: soldier.soldierId })),
                )
              }
            />
          </Section>
          {may === 'plan' && <Asks ceremony={ceremony} onChanged={refresh} />}
          <Section title="Times">
            <Times ceremony={ceremony} words={words} />
          </Section>
        </div>
      </div>
      <Section title="Alternates" note="the first is asked first">
        <Alternates ceremony={ceremony} words={words} onChanged={refresh} />
      </Section>
      <Outlook
        ceremony={ceremony}
        words={words}
        unitId={filters.unitId || session?.unitId || undefined}
        onUnit={(unitId) => setFilters({ unitId })}
      />
      {open && may !== 'look' && (
        <PostDialog
          ceremony={ceremony}
          post={open}
          words={words}
          onName={name}
          onClose={() => setFilters({ post: '' })}
        />
      )}
      {isLeaving && (
        <CancelDialog
          ceremony={ceremony}
          today={words.today}
          onCancel={async (reason) => {
            await cancelCeremony(id, ceremony.version, reason)
            await refresh()
          }}
          onClose={() => setLeaving(false)}
        />
      )}
    </Page>
  )
}
