-- A reading as it was written down. Rows never change; a correction is a new row that replaces an older one.
create table reading (
    id                uuid        primary key,
    water_system_id   uuid        not null references water_system (id),
    sample_point_id   uuid        references sample_point (id),
    quantity          text        not null,
    answer            text        not null check (answer in ('VALUE', 'BELOW_DETECTION', 'ABOVE_RANGE', 'BETWEEN', 'NOT_MEASURED')),
    value             numeric,
    upper_value       numeric,
    unit              text        not null,
    gravity_reference text,
    sample_temperature_c numeric  check (sample_temperature_c between -5 and 60),
    instrument_id     uuid        references instrument (id),
    kit_lot           text,
    not_measured_because text,
    taken_at          timestamptz not null,
    person_id         uuid        not null references person (id),
    -- the visit it was taken at; opaque here
    visit_id          uuid,
    replaces_id       uuid        unique references reading (id),
    reason            text,
    recorded_at       timestamptz not null,
    check ((answer = 'NOT_MEASURED') = (value is null)),
    check ((answer = 'BETWEEN') = (upper_value is not null)),
    check (value < upper_value),
    check ((replaces_id is null) = (reason is null)),
    check ((unit = 'SG') = (gravity_reference is not null))
);
create index reading_system on reading (water_system_id, quantity, taken_at);
create index reading_instrument on reading (instrument_id, taken_at);
create index reading_visit_id on reading (visit_id);
create index reading_sample_point_id on reading (sample_point_id);
create index reading_person_id on reading (person_id);

-- What was computed from a reading, by which rule and which calibrations. Computing again adds a row.
create table assessment (
    id                bigint      generated always as identity primary key,
    reading_id        uuid        not null references reading (id),
    rule_version      integer     not null,
    -- verdict on the corrected value, and the one the value as read would have had
    verdict           text        not null,
    verdict_as_read   text        not null,
    instrument_status text,
    trusted           boolean     not null,
    doubtful          boolean     not null,
    -- on the scale read; null where nothing can be corrected
    corrected_value   double precision,
    uncertainty       double precision,
    -- for salinity: practical salinity and its uncertainty
    salinity          double precision,
    salinity_uncertainty double precision,
    reasons           jsonb       not null,
    calibration_ids   uuid[]      not null,
    target_low        numeric,
    target_high       numeric,
    computed_at       timestamptz not null,
    -- the newest assessment of its reading
    latest            boolean     not null
);
create unique index assessment_latest on assessment (reading_id) where latest;
create index assessment_reading_id on assessment (reading_id);
create index assessment_doubtful on assessment (reading_id) where latest and doubtful;

-- Something done because of readings, so that later doubt can find it.
create table decision (
    id                uuid        primary key,
    kind              text        not null check (kind <> ''),
    subject_kind      text        not null,
    subject_id        uuid        not null,
    page              text        not null,
    summary_code      text        not null,
    summary_args      jsonb       not null,
    person_id         uuid        references person (id),
    decided_at        timestamptz not null
);
create index decision_subject on decision (subject_kind, subject_id);
create index decision_person_id on decision (person_id);

create table decision_reading (
    decision_id       uuid        not null references decision (id),
    reading_id        uuid        not null references reading (id),
    primary key (decision_id, reading_id)
);
create index decision_reading_reading_id on decision_reading (reading_id);
