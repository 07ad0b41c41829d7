/** Tells `runs` that mutants are being tested: fewer examples a property are enough to tell one. */
process.env["TESTING_MUTANTS"] = "1";
