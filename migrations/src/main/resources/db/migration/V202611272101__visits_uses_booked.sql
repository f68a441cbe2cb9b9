-- Whether what a finished visit used was booked in the ledger of the stock. What visits used that ended before this was kept
-- is in what was counted since: of them nothing is ever booked, and this stays null.
alter table visit add column uses_booked boolean;
update visit set uses_booked = false where finished_at is null;
alter table visit alter column uses_booked set default false;
create index visit_uses_unbooked on visit (finished_at) where not uses_booked and finished_at is not null;
