-- Why an instrument decides nothing, from the first sign to the check that settled it. Closed, never deleted.
create table instrument_suspicion (
    id               uuid        primary key,
    instrument_id    uuid        not null references instrument (id),
    cause            text        not null check (cause in ('FAILED_CHECK', 'DROPPED', 'DISAGREEMENT')),
    opened_at        timestamptz not null,
    opened_by        uuid        references person (id),
    -- the check that failed, unless something else began it
    check_at         timestamptz,
    -- the last good check before; null if there was none
    doubt_from       timestamptz,
    note             text,
    closed_at        timestamptz,
    closed_by        uuid        references person (id),
    outcome          text        check (outcome in ('CLEARED', 'CONDEMNED')),
    closing_check_at timestamptz,
    check ((cause = 'FAILED_CHECK') = (check_at is not null)),
    check ((closed_at is null) = (outcome is null)),
    check ((closed_at is null) = (closing_check_at is null))
);
create unique index instrument_suspicion_open on instrument_suspicion (instrument_id) where closed_at is null;
create index instrument_suspicion_instrument_id on instrument_suspicion (instrument_id, opened_at);
create index instrument_suspicion_opened_by on instrument_suspicion (opened_by);
create index instrument_suspicion_closed_by on instrument_suspicion (closed_by);

-- A condemned instrument that a person put back in use after it was repaired or adjusted and passed a check.
create table instrument_return (
    id               uuid        primary key,
    suspicion_id     uuid        not null unique references instrument_suspicion (id),
    returned_at      timestamptz not null,
    returned_by      uuid        references person (id),
    -- the check that it passed
    check_at         timestamptz not null,
    -- what was repaired or adjusted; null if brought over from older records
    reason           text        check (reason <> '')
);
create index instrument_return_returned_by on instrument_return (returned_by);

-- Every time that somebody said that it was dropped, whether or not it was suspect already.
create table instrument_drop (
    id               uuid        primary key,
    instrument_id    uuid        not null references instrument (id),
    dropped_at       timestamptz not null,
    reported_by      uuid        references person (id),
    recorded_at      timestamptz not null,
    unique (instrument_id, dropped_at)
);
create index instrument_drop_reported_by on instrument_drop (reported_by);

-- Whether the standard could be believed on the day of the check.
alter table calibration add column standard_state text not null default 'SOUND' check (standard_state in ('SOUND', 'EXPIRED'));
update calibration c
set standard_state = 'EXPIRED'
from standard s
where s.id = c.standard_id and s.expires_on < (c.performed_at at time zone 'UTC')::date;
