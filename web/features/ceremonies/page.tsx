import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { sessionQuery } from '../../api/accounts/session.ts'
import { cancelCeremony, ceremonyQuery } from '../../api/ceremonies/ceremonies.ts'
import { formatPosts, formatWhyShort } from '../../domain/ceremonies/format-ceremony.ts'
import { formatNamed } from '../../domain/ceremonies/format-proposal.ts'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { UndoNotice } from '../../ui/undo-notice.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { Alternates } from './alternates.tsx'
import { Asks } from './asks.tsx'
import { CancelDialog } from './cancel-dialog.tsx'
import { CeremonyControls } from './ceremony-controls.tsx'
import { Outlook } from './outlook.tsx'
import { PostDialog } from './post-dialog.tsx'
import { PostsPart } from './posts-part.tsx'
import { ShortPosts } from './short-posts.tsx'
import { Times } from './times.tsx'
import { useNaming } from './use-naming.ts'
import { useWords } from './use-words.ts'

/** One ceremony: its posts as they form up, who could take those that are short, alternates, times, and one's own people. */
export default function CeremonyPage({ id }: { id: string }) {
  const [filters, setFilters] = useFilters(['post', 'unitId'])
  const query = useQuery(ceremonyQuery(id))
  const session = useQuery(sessionQuery).data
  const ceremony = query.data
  const words = useWords(ceremony?.unitId)
  const naming = useNaming(ceremony, () => setFilters({ post: '' }))
  const [isLeaving, setLeaving] = useState(false)
  if (!ceremony) return <Page title="Ceremony" error={query.error} onRetry={query.refetch} />

  const { name, refresh } = naming
  const { may, cancelReason } = ceremony
  const open = ceremony.formation.find((post) => post.id === filters.post)
  return (
    <Page
      title={ceremony.title}
      answer={formatPosts(ceremony, words.today)}
      why={formatWhyShort(ceremony.formation)}
      controls={<CeremonyControls id={id} may={may} onLeave={() => setLeaving(true)} />}
    >
      {cancelReason !== null && (
        <Notice>
          <p>Called off: {cancelReason}</p>
        </Notice>
      )}
      {naming.done && <UndoNotice text={naming.done.text} onUndo={naming.undo} onClose={naming.forget} />}
      <div className="columns">
        <PostsPart ceremony={ceremony} onPost={(post) => setFilters({ post })} />
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
      <Section title="Alternates" note="the first is called first">
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
