import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { Formation } from '../../parts/ceremonies/formation.tsx'
import { Button } from '../../ui/button.tsx'
import { Section } from '../../ui/section.tsx'

/** The posts as they form up; whoever may name soldiers does it from there. */
export function PostsPart({ ceremony, onPost }: { ceremony: CeremonyDetail; onPost: (postId: string) => void }) {
  const { formation, may } = ceremony
  return (
    <Section title="Posts" note="as they form up, front rank first, seen from the front">
      <Formation
        posts={formation}
        action={
          may === 'look'
            ? undefined
            : (post) =>
                post.otherUnit && may === 'name' ? null : (
                  <Button kind="quiet" onClick={() => onPost(post.id)}>
                    {post.soldier || post.otherUnit ? 'Change' : 'Name somebody'}
                    <span className="out-of-sight">: {post.title}</span>
                  </Button>
                )
        }
      />
    </Section>
  )
}
