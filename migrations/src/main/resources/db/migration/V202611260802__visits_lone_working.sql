-- Who is told, one after the other, when somebody who is alone does not check out.
create table alone_call_list (
    id       integer  primary key check (id = 1),
    version  integer  not null
);
insert into alone_call_list (id, version) values (1, 1);

create table alone_call_line (
    position      integer  primary key check (position >= 0),
    person_id     uuid     not null unique references person (id),
    email         text     not null check (email <> ''),
    phone         text,
    wait_minutes  integer  not null check (wait_minutes between 1 and 240)
);

-- Somebody alone at a site, from check-in to check-out.
create table alone_stay (
    id              uuid         primary key,
    site_id         uuid         not null references site (id),
    person_id       uuid         not null references person (id),
    because         text         not null,
    checked_in_at   timestamptz  not null,
    checked_in_by   uuid         not null references person (id),
    latest_return   timestamptz  not null,
    checked_out_at  timestamptz,
    checked_out_by  uuid         references person (id),
    -- who has said that they see to it
    answered_at     timestamptz,
    answered_by     uuid         references person (id),
    -- when the next person is told; nobody is told before the latest return
    next_call_at    timestamptz  not null,
    check (latest_return > checked_in_at),
    check ((checked_out_at is null) = (checked_out_by is null)),
    check ((answered_at is null) = (answered_by is null))
);
create index alone_stay_site_id on alone_stay (site_id);
create index alone_stay_person_id on alone_stay (person_id);
create index alone_stay_open on alone_stay (next_call_at) where checked_out_at is null;

-- Who was told of whom; only added to.
create table alone_call (
    stay_id    uuid         not null references alone_stay (id),
    number     integer      not null check (number > 0),
    person_id  uuid         not null references person (id),
    called_at  timestamptz  not null,
    -- false where no mail server is set up: then only the first page says it
    mailed     boolean      not null,
    primary key (stay_id, number)
);
