"""The review as one file for a browser and a printer: no script, no network, the same bytes for the same job."""
