import { useQuery } from '@tanstack/react-query'
import type { Certification } from '#contract/standards/certifications.ts'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { carriesArms } from '../../domain/soldiers/carries-arms.ts'
import { codesOf, ListedChoices, Unlisted } from '../../parts/soldiers/unlisted.tsx'
import { Button } from '../../ui/button.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { blankPost, type DraftPost, postLike } from './draft.ts'

interface PostFieldsProps {
  posts: readonly DraftPost[]
  onChange: (posts: DraftPost[]) => void
  certifications: readonly Certification[]
  wrongAt: (pointer: string) => string | null
}

/** The posts, a line each: where it stands, what it asks for. */
export function PostFields({ posts, onChange, certifications, wrongAt }: PostFieldsProps) {
  const change = (at: number, changes: Partial<DraftPost>) =>
    onChange(posts.map((one, index) => (index === at ? { ...one, ...changes } : one)))
  const add = () => {
    const rows = posts.map(({ row }) => Number(row))
    onChange([...posts, blankPost(String(Math.max(0, ...rows) + 1), '1', certifications[0]?.code ?? '')])
  }
  return (
    <>
      <ol className="editor-lines">
        {posts.map((post, index) => (
          <li key={post.key}>
            <PostLine
              post={post}
              number={index + 1}
              certifications={certifications}
              wrong={(name) => wrongAt(`/posts/${index}/${name}`)}
              onChange={(changes) => change(index, changes)}
              onLike={() => onChange(posts.toSpliced(index + 1, 0, postLike(post, posts)))}
              onRemove={() => onChange(posts.toSpliced(index, 1))}
            />
          </li>
        ))}
      </ol>
      <Button onClick={add}>Add a post</Button>
    </>
  )
}

interface PostLineProps {
  post: DraftPost
  number: number
  certifications: readonly Certification[]
  wrong: (name: string) => string | null
  onChange: (changes: Partial<DraftPost>) => void
  onLike: () => void
  onRemove: () => void
}

function PostLine({ post, number, certifications, wrong, onChange, onLike, onRemove }: PostLineProps) {
  const lists = useQuery(listsQuery).data
  const arms = certifications.find(({ code }) => code === post.certification)?.arms ?? []
  const listed = arms.length > 0 ? arms : (lists?.arms ?? []).map(({ code }) => code)
  const choices = [...new Set([...listed, ...(post.arm ? [post.arm] : [])])]
  const field = (label: string, name: keyof DraftPost, more: React.ComponentProps<'input'> = {}) => (
    <TextField
      label={label}
      error={wrong(name)}
      value={post[name] ?? ''}
      onChange={(event) => onChange({ [name]: event.target.value })}
      {...more}
    />
  )
  const whole = (least: number, most: number) => ({ type: 'number', min: least, max: most, step: 1 })
  return (
    <fieldset className="post-line">
      <legend className="out-of-sight">Post {number}</legend>
      {field('Post', 'title', { required: true, maxLength: 400 })}
      {field('Rank', 'row', { ...whole(1, 50), required: true })}
      {field('Place', 'place', { ...whole(1, 100), required: true })}
      <SelectField
        label="Certification"
        error={wrong('certification')}
        value={post.certification}
        onChange={(event) => onChange({ certification: event.target.value, arm: '' })}
      >
        {certifications.map(({ code, title }) => (
          <option key={code} value={code}>
            {title}
          </option>
        ))}
      </SelectField>
      {(carriesArms(lists) || choices.length > 0) && (
        <SelectField
          label="Arm"
          error={wrong('arm')}
          value={post.arm}
          onChange={(event) => onChange({ arm: event.target.value })}
        >
          <option value="">Any</option>
          {choices.map((arm) => (
            <option key={arm}>{arm}</option>
          ))}
        </SelectField>
      )}
      {field('Grades', 'grades', { placeholder: 'Any', list: `${post.key}-grades` })}
      <ListedChoices id={`${post.key}-grades`} listed={lists?.grades} />
      <Unlisted kind="grade" codes={codesOf(post.grades)} listed={lists?.grades} />
      {field('From cm', 'minHeightCm', whole(100, 250))}
      {field('To cm', 'maxHeightCm', whole(100, 250))}
      <span className="post-line-buttons">
        <Button onClick={onLike}>
          Another<span className="out-of-sight"> like post {number}</span>
        </Button>
        <Button onClick={onRemove}>
          Remove<span className="out-of-sight"> post {number}</span>
        </Button>
        {post.named && (
          <span className="muted small">{post.named} is named; removing the post takes the name off.</span>
        )}
      </span>
    </fieldset>
  )
}
