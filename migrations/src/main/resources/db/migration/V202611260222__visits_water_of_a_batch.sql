-- Finds the changes of water that a batch went into, so that no more is taken from it than it holds.
create index visit_entry_batch on visit_entry ((facts ->> 'batch')) where facts ->> 'batch' is not null;
