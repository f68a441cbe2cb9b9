-- What a condemned instrument brought into doubt: one list for each time that it was condemned.
create table doubt_list (
    id               uuid        primary key,
    suspicion_id     uuid        not null unique references instrument_suspicion (id),
    instrument_id    uuid        not null references instrument (id),
    -- the last good check; null if there was none
    doubt_from       timestamptz,
    -- the check that confirmed the failure
    doubt_until      timestamptz not null,
    made_at          timestamptz not null,
    check (doubt_from < doubt_until)
);
create index doubt_list_instrument_id on doubt_list (instrument_id, doubt_until);

-- A person let the doubt begin later, because another instrument vouched for this one; the latest of a list counts.
create table doubt_start (
    id               uuid        primary key,
    list_id          uuid        not null references doubt_list (id),
    -- up to and with this instant the instrument is believed
    believed_until   timestamptz not null,
    -- what was read with this instrument and with the other one on the same water
    reading_id       uuid        not null references reading (id),
    evidence_id      uuid        not null references reading (id),
    reason           text        not null check (reason <> ''),
    person_id        uuid        references person (id),
    stated_at        timestamptz not null
);
create index doubt_start_list_id on doubt_start (list_id);
create index doubt_start_reading_id on doubt_start (reading_id);
create index doubt_start_evidence_id on doubt_start (evidence_id);
create index doubt_start_person_id on doubt_start (person_id);

-- One reading or decision in doubt. Ended by a person, never deleted.
create table doubt_line (
    id               bigint      generated always as identity primary key,
    list_id          uuid        not null references doubt_list (id),
    reading_id       uuid        references reading (id),
    decision_id      uuid        references decision (id),
    -- when it was read or decided
    happened_at      timestamptz not null,
    -- of a reading: what was thought of it while the instrument was believed, and what is thought now
    before_id        bigint      references assessment (id),
    after_id         bigint      references assessment (id),
    change           text        not null check (change in ('UNCHANGED', 'CHANGED', 'NOT_DECIDABLE')),
    outcome          text        check (outcome in ('MEASURED_AGAIN', 'CLIENT_TOLD', 'HARMLESS', 'EVIDENCE', 'CORRECTED')),
    ended_at         timestamptz,
    ended_by         uuid        references person (id),
    -- the new reading
    again_id         uuid        references reading (id),
    note             text        check (note <> ''),
    unique (list_id, reading_id),
    unique (list_id, decision_id),
    check ((reading_id is null) <> (decision_id is null)),
    check ((reading_id is null) = (after_id is null)),
    check ((outcome is null) = (ended_at is null)),
    check ((again_id is not null) = coalesce(outcome in ('MEASURED_AGAIN', 'CORRECTED'), false)),
    check (outcome <> 'HARMLESS' or note is not null)
);
create index doubt_line_open on doubt_line (list_id) where outcome is null;
create index doubt_line_reading_id on doubt_line (reading_id);
create index doubt_line_decision_id on doubt_line (decision_id);
create index doubt_line_before_id on doubt_line (before_id);
create index doubt_line_after_id on doubt_line (after_id);
create index doubt_line_again_id on doubt_line (again_id);
create index doubt_line_ended_by on doubt_line (ended_by);
