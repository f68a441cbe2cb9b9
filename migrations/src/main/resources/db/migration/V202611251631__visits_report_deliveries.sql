-- To whom each version of a visit's report went, and how; the same version goes to the same person the same way once.
create table report_delivery (
    id               uuid        primary key,
    visit_id         uuid        not null references visit (id),
    version_number   integer     not null check (version_number >= 1),
    way              text        not null check (way in ('MAIL', 'BY_HAND')),
    recipient        text        not null check (recipient <> ''),
    delivered_by     uuid        references person (id),
    delivered_at     timestamptz not null,
    unique (visit_id, version_number, way, recipient)
);
create index report_delivery_delivered_by on report_delivery (delivered_by);
