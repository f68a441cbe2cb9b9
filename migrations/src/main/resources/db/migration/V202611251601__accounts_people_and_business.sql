-- One business per installation: this table holds at most one row.
create table business (
    id             uuid    primary key,
    only_one       boolean not null default true unique check (only_one),
    name           text    not null check (name <> ''),
    email          text,
    phone          text,
    address        text,
    currency       text    not null check (currency ~ '^[A-Z]{3}$'),
    country        text    not null check (country ~ '^[A-Z]{2}$'),
    locale         text    not null check (locale <> ''),
    zone           text    not null check (zone <> ''),
    unit_system    text    not null check (unit_system in ('METRIC', 'US_CUSTOMARY')),
    -- Gravity readings of this business are shown at this reference, such as 20/20 or 60F/60F.
    gravity_reference text not null check (gravity_reference <> ''),
    -- g of anhydrous sea salt in one g of the salt mix as bought
    salt_yield     double precision not null check (salt_yield >= 0.5 and salt_yield <= 1),
    version        integer not null
);

create table person (
    id             uuid    primary key,
    sign_in_name   text    not null unique check (sign_in_name = lower(sign_in_name) and sign_in_name <> ''),
    name           text    not null check (name <> ''),
    role           text    not null check (role in ('OWNER', 'OFFICE', 'TECHNICIAN', 'CLIENT')),
    password_hash  text,
    locale         text    not null check (locale <> ''),
    active         boolean not null,
    version        integer not null
);

-- Only the SHA-256 of a link's token is kept.
create table sign_in_link (
    token_hash     bytea       primary key check (octet_length(token_hash) = 32),
    person_id      uuid        references person (id),
    purpose        text        not null check (purpose in ('FIRST_OWNER', 'SIGN_IN')),
    made_at        timestamptz not null,
    valid_until    timestamptz not null,
    used_at        timestamptz,
    check ((purpose = 'FIRST_OWNER') = (person_id is null))
);
create index sign_in_link_person_id on sign_in_link (person_id);

-- Who changed what: rows are only ever added.
create table change_log (
    id             bigint      generated always as identity primary key,
    changed_at     timestamptz not null,
    person_id      uuid        references person (id),
    subject_kind   text        not null,
    subject_id     text        not null,
    action         text        not null,
    detail         jsonb       not null
);
create index change_log_subject on change_log (subject_kind, subject_id, id);
create index change_log_person_id on change_log (person_id);
