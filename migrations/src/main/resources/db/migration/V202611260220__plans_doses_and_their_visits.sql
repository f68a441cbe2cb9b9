-- At which visit a dose was given, and whether it is known by a ticked task alone: an entry of the same product at that
-- visit says more and takes its place. Earlier doses were all entries of their own.
alter table dose_given
    add visit_id uuid,
    add agreed   boolean not null default false;
