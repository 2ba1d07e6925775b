/** Examples as hives of their own: the one that was open stays as it is, and the way back leads to it. */
import type { Session } from '../session.svelte';
import { newHive } from './hive';

export async function openExample(session: Session, text: string): Promise<void> {
  const { yard } = session;
  const before = yard.currentId;
  const hive = newHive(await session.model.read(text), yard.nextOrder);
  await session.addHive(hive);
  if (before) yard.news = { kind: 'example', name: yard.hive(hive.id)?.name ?? hive.name, id: hive.id, before };
}

/** Goes back to the hive that was open before an example, and deletes that one; it can be brought back. */
export async function closeExample(session: Session, id: string, before: string): Promise<void> {
  const { yard } = session;
  const hive = yard.hive(before);
  if (hive) await session.openHive(hive);
  await yard.remove(id);
  if (!hive) await session.openAnother();
}
