CREATE TABLE `arrival` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`count` integer NOT NULL,
	`data` blob NOT NULL
);
--> statement-breakpoint
CREATE TABLE `settled_arrival` (
	`feature_id` integer PRIMARY KEY NOT NULL,
	`to_arrival` integer NOT NULL
);
--> statement-breakpoint
ALTER TABLE `feature_state` ADD `to_arrival` integer DEFAULT 0 NOT NULL;--> statement-breakpoint
ALTER TABLE `intake` ADD `brought` text DEFAULT '[]' NOT NULL;