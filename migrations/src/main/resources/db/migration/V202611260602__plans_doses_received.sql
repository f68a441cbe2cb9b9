-- When a dose became known: one that is said to have been given long before counts for both moments, earlier ones count for
-- the one they name. And whether it was given besides a ticked dose of the same product at the same visit.
alter table dose_given
    add received_at timestamptz,
    add further     boolean not null default false;
