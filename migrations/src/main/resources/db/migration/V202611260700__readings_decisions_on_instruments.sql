-- What was measured for a decision and is no reading of a system, such as the new water of a change.
create table decision_instrument (
    decision_id      uuid        not null references decision (id),
    instrument_id    uuid        not null references instrument (id),
    measured_at      timestamptz not null,
    primary key (decision_id, instrument_id)
);
create index decision_instrument_instrument_id on decision_instrument (instrument_id, measured_at);
