-- Between which times a client was told that somebody comes. The last that was told stands.
create table arrival_promise (
    planned_visit_id  uuid         primary key references planned_visit (id),
    service_date      date         not null,
    from_time         time         not null,
    until_time        time         not null,
    -- in percent: how likely it was to be kept
    confidence        integer      not null check (confidence between 50 and 99),
    told_at           timestamptz  not null,
    told_by           uuid         references person (id),
    check (until_time >= from_time)
);
create index arrival_promise_service_date on arrival_promise (service_date);
create index arrival_promise_told_by on arrival_promise (told_by);
