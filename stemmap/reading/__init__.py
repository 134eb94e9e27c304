"""Uploads in: tables and layers of any usual make become records as typed, with a finding for all that is doubtful."""
