-- By how much the error of other instruments of its kind had wandered in a day, as far as known at a check of this one: a
-- standard deviation in permitted errors. The latest row holds until its next check; without one the usual figure does.
create table instrument_drift (
    -- in the order in which they were added
    position         bigint           generated always as identity primary key,
    instrument_id    uuid             not null references instrument (id),
    per_root_day     double precision not null check (per_root_day > 0),
    reckoned_at      timestamptz      not null
);
create index instrument_drift_instrument_id on instrument_drift (instrument_id, position desc);
