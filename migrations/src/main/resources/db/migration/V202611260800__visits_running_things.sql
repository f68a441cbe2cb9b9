-- What is running or switched off is looked for every minute.
create index visit_entry_running on visit_entry (happened_at) where kind = 'visit.running';

-- What the office was told of, so that a person who has settled it is not told again.
create table running_alarm (
    entry_id   uuid        not null references visit_entry (id),
    situation  text        not null check (situation in ('TOO_LONG', 'LEFT_BEHIND', 'TIME_IS_UP')),
    raised_at  timestamptz not null,
    primary key (entry_id, situation)
);
