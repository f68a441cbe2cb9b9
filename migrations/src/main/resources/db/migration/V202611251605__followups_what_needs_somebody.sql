create table followup (
    id             uuid        primary key,
    -- a code; the words are made where it is shown
    code           text        not null check (code <> ''),
    args           jsonb       not null,
    urgency        text        not null check (urgency in ('NOW', 'TODAY', 'SOON')),
    subject_kind   text        not null,
    subject_id     uuid        not null,
    -- what it is about, to find the open one again instead of opening a second
    topic          text        not null,
    page           text        not null,
    opened_at      timestamptz not null,
    settled_at     timestamptz,
    settled_by     uuid        references person (id),
    settled_note   text,
    check (settled_at is not null or settled_by is null)
);
create unique index followup_open_topic on followup (topic) where settled_at is null;
create index followup_subject on followup (subject_kind, subject_id);
create index followup_settled_by on followup (settled_by);
