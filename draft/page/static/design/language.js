// Colours of the piece language: the words of the language, numbers, texts, comments, and the names that a line declares.

export const tokens = (words) => {
  const known = new Set(words);
  return {
    name: "piece",
    startState: () => ({ first: true }),
    token(stream, state) {
      if (stream.sol()) state.first = true;
      if (stream.eatSpace()) return null;
      if (stream.match(/^#.*/)) return "comment";
      if (stream.match(/^"[^"]*"?/)) return "string";
      if (stream.match(/^(?:(?:\d+[ \t]+)?\d+\/\d+|\d+(?:\.\d+)?)[ \t]*(?:(?:mm|cm|m|in|ft|yd|deg)(?![A-Za-z0-9_])|%)?/)) {
        state.first = false;
        return "number";
      }
      const word = stream.match(/^[A-Za-z_]\w*/);
      if (!word) {
        stream.next();
        return null;
      }
      const first = state.first;
      state.first = false;
      if (known.has(word[0])) return "keyword";
      return first ? "definition" : "name";
    },
    languageData: { commentTokens: { line: "#" } },
    tokenTable: {},
  };
};
