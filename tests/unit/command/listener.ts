/** What a command says and what it complains of, line by line. */
export function listener() {
  const said: string[] = [];
  const complained: string[] = [];
  const voice = {
    say: (line: string): void => void said.push(line),
    complain: (line: string): void => void complained.push(line),
  };
  return { voice, heard: () => ({ said: said.join("\n"), complained: complained.join("\n") }) };
}
