export const help = `Usage: shootplan COMMAND [OPTIONS] FILES

Plans for long exposures of water, and the kits that they share.

  check FILES...   say what cannot work; a folder stands for all plans and kits below it
  day FILE         the plan with every moment, angle and exposure resolved
  explain CODE...  what a finding means

FILE may be - for the standard input.

  --format FORMAT      check: text, json or sarif; day: text or json
  --severity SEVERITY  check ends with 1 from this on: error, warning (usual) or hint;
                       whatever is found is shown
  --from FOLDER        paths in the plan count from there: for the standard input, and for
                       copies such as those that git makes
  --allow-empty        a path or pattern without plans is no fault
  --version            version of the program and of its time zone data
  --help               this text

Exit codes: 0 nothing found, 1 something found, 2 could not run.

To see resolved plans in git's differences:
  git config diff.shootplan.textconv "shootplan day --from plans"
  echo "*.shootplan.yaml diff=shootplan" >> .gitattributes
`;
