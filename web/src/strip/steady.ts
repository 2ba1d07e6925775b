/**
 * Keeps of an object each part that says the same as before, and the object itself where all of them do: what is drawn of a part that has not
 * changed is not drawn anew.
 */
export function steady<T extends object>(): (now: T) => T {
  let before: T | null = null;
  let said: Record<string, string> = {};
  return (now) => {
    const says: Record<string, string> = {};
    const kept = { ...now };
    let same = before !== null;
    for (const name of Object.keys(now) as (keyof T & string)[]) {
      says[name] = JSON.stringify(now[name]);
      if (before !== null && said[name] === says[name]) kept[name] = before[name];
      else same = false;
    }
    said = says;
    before = same && before !== null ? before : kept;
    return before;
  };
}
