-- Where the device entered it, by the device's own name; null for what came before devices said so.
alter table inbox_entry add column field text check (field <> '');
create index inbox_entry_refused on inbox_entry (received_at) where status = 'refused';
