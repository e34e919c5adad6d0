export default function GradersPage() {
  return null
}
