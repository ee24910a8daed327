"""Many jobs to one table: rows streamed, judged by processes or a cluster, kept in a ledger, written whole."""
