-- Passwords for other programs. The secret is long and random, so its SHA-256 cannot be guessed back.
create table application_password (
    id             uuid        primary key,
    person_id      uuid        not null references person (id),
    name           text        not null check (name <> ''),
    secret_hash    bytea       not null unique check (octet_length(secret_hash) = 32),
    made_at        timestamptz not null,
    last_used_at   timestamptz
);
create index application_password_person_id on application_password (person_id);
