export default function ReadingsPage() {
  return null
}
