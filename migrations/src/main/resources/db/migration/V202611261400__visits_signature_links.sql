-- A link with which the client signs for one visit later; the token is in the link only.
create table visit_signature_link (
    id           uuid         primary key,
    token_hash   bytea        not null unique check (octet_length(token_hash) = 32),
    visit_id     uuid         not null references visit (id),
    -- what there was to sign when the link was made, by its SHA-256
    shown_hash   bytea        not null check (octet_length(shown_hash) = 32),
    made_by      uuid         not null references person (id),
    made_at      timestamptz  not null,
    valid_until  timestamptz  not null check (valid_until > made_at),
    -- when a newer link took its place
    ended_at     timestamptz,
    used_at      timestamptz,
    -- the entry that signing became
    entry_id     uuid         unique,
    check ((used_at is null) = (entry_id is null)),
    check (used_at is null or ended_at is null)
);
create index visit_signature_link_visit_id on visit_signature_link (visit_id);
create index visit_signature_link_made_by on visit_signature_link (made_by);
create unique index visit_signature_link_open on visit_signature_link (visit_id)
    where used_at is null and ended_at is null;
