"""What every list can do beside showing rows: find, copy, choose and remember its columns."""
