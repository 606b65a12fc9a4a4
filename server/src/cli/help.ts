export const HELP = `Loopledger checks crochet patterns written as plain text.

  loopledger check [--format text|json] [--severity RULE=HOW]... FILE...
      Checks patterns. FILE is a pattern, a folder (every *.crochet in it and in
      the folders below), a name with * ? or **, or - for standard input.
      --severity ambiguous=off turns a rule off; HOW is error, warning,
      information, hint or off. Settings of an editor are not read.
      Exit status 0: no error; 1: at least one error; 2: a file that cannot be
      read, or a command that cannot be understood.

  loopledger measure [--format text|json] [--margin PERCENT] [--pace STITCHES] FILE...
      Tells the yarn of each colour and size, the finished size of each piece and
      the time to work it: as a page of Markdown, or as data. --margin is the yarn
      to spare in percent (15), --pace the stitches worked in a minute (20).

  loopledger publish-check FILE
      Writes one page of Markdown: what was checked, what was taken for granted,
      what was not checked and why, and what is open. Exit status as for check.

  loopledger terms --to uk|us FILE
      Writes the pattern in UK or US terms to standard output, and each word that
      was left alone, with the reason, to standard error. The file stays as it is.

  loopledger draft --in german FILE
      Writes a draft of an English pattern in another language, word for word, for
      a maker of that language to go over; what stayed English goes to standard
      error. Languages: Danish, Dutch, Finnish, French, German, Italian, Japanese,
      Portuguese, Spanish.

  loopledger lsp --stdio
      Starts the language server for an editor.

  loopledger --help
  loopledger --version
`;
