import { Link } from 'wouter'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import type { ManningProposal } from '#contract/plans/manning.ts'
import {
  formatChance,
  formatFair,
  formatHelp,
  formatProposal,
  formatRank,
  formatShort,
  formatStood,
  joinShort,
} from '../../domain/ceremonies/format-proposal.ts'
import { inRanks } from '../../domain/ceremonies/in-ranks.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import './proposal.css'

type Posts = CeremonyDetail['formation']

interface TakeProps {
  proposal: ManningProposal
  posts: Posts
  isBusy: boolean
  onTake: (posts: ManningProposal['posts']) => void
}

/** What is proposed for the short posts of a ceremony as a whole, to be taken at once: all, or a rank. */
export function ProposalBar({ proposal, posts, isBusy, onTake }: TakeProps) {
  if (proposal.open === 0) return null
  const ranks = inRanks(posts)
    .map((rank) => ({
      row: rank[0]!.row,
      own: proposal.posts.filter(({ postId }) => rank.some(({ id }) => id === postId)),
    }))
    .filter(({ own }) => own.length > 1)
  return (
    <div className="proposal">
      <p>
        <b>{formatProposal(proposal)}</b> <span className="muted">{formatFair(proposal.fair)}</span>
      </p>
      {proposal.posts.length > 0 && (
        <p className="proposal-take no-print">
          <Button kind="main" disabled={isBusy} onClick={() => onTake(proposal.posts)}>
            {proposal.posts.length === 1 ? 'Name the one proposed' : `Name all ${proposal.posts.length} proposed`}
          </Button>
          {ranks.length > 1 &&
            ranks.map(({ row, own }) => (
              <Button key={row} disabled={isBusy} onClick={() => onTake(own)}>
                {formatRank(row)}: name {own.length}
              </Button>
            ))}
        </p>
      )}
    </div>
  )
}

/** Who is proposed for one post, beside it. */
export function ProposedFor({ post, proposal, isBusy, onTake }: Omit<TakeProps, 'posts'> & { post: Posts[number] }) {
  const own = proposal.posts.find(({ postId }) => postId === post.id)
  if (!own) return null
  const { grade, name, soldierId } = own.soldier
  return (
    <span className="proposed">
      <span>
        Proposed:{' '}
        <Link href={addressTo(paths.candidate, { id: soldierId })}>
          <bdi>
            {grade} {name}
          </bdi>
        </Link>
        , {formatStood(own.soldier)}
      </span>
      <Button className="no-print" disabled={isBusy} onClick={() => onTake([own])}>
        Name<span className="out-of-sight"> {`${grade} ${name}: ${post.title}`}</span>
      </Button>
    </span>
  )
}

interface CompetingProps {
  proposal: ManningProposal
  posts: Posts
  today: string
  standardTitle: (code: string) => string
}

/** The posts that compete for too few soldiers, and who would end it. */
export function Competing({ proposal, posts, today, standardTitle }: CompetingProps) {
  return joinShort(proposal.short).map((short) => (
    <div className="competing" key={short.posts.join()}>
      <p>{formatShort(short, posts)}</p>
      {short.wouldHelp.length === 0 ? (
        <p className="muted">Nobody of yours could be certified in time or be freed for it.</p>
      ) : (
        <>
          <p className="muted">Who would end it:</p>
          <ul>
            {short.wouldHelp.map((one) => (
              <li key={one.soldierId}>
                <Link href={addressTo(paths.candidate, { id: one.soldierId })}>
                  <b>
                    <bdi>
                      {one.grade} {one.name}
                    </bdi>
                  </b>
                </Link>{' '}
                {formatHelp(one, today, standardTitle)}
                {one.pass !== null && `; ${formatChance(one.pass)}`}
                {one.tests
                  .filter(({ booked }) => !booked)
                  .map(({ testDayId, standard }) => (
                    <span key={standard}>
                      {' '}
                      <Link href={addressTo(paths.testDay, { id: testDayId })}>
                        See the slots<span className="out-of-sight"> for {one.name}</span>
                      </Link>
                    </span>
                  ))}
              </li>
            ))}
          </ul>
        </>
      )}
    </div>
  ))
}
