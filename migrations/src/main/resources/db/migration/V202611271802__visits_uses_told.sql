-- Whether what a finished visit used was told to whoever learns from it; visits of before are told one after the other.
alter table visit add column uses_told boolean not null default false;
create index visit_uses_untold on visit (finished_at) where not uses_told and finished_at is not null;
