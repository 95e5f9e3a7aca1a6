"""Radio arithmetic in whole hertz: products, hits, spacing, bands, sweeps and the search for frequencies.

Nothing here depends on the show. A carrier is described by `carrier.Carrier`, the house's wishes by
`carrier.Rules`; everything else is a plain function from those to tuples.
"""
