CREATE TABLE `drift_flag` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`source_kind` text NOT NULL,
	`source_code` text NOT NULL,
	`opened_at` integer NOT NULL,
	`onset_at` integer NOT NULL,
	`latest` text NOT NULL,
	`latest_at` integer NOT NULL,
	`faint_scans` integer DEFAULT 0 NOT NULL,
	`state` text NOT NULL,
	`ended_at` integer,
	`remark` text DEFAULT '' NOT NULL,
	`account_id` integer,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `drift_flag_by_source` ON `drift_flag` (`source_kind`,`source_code`);--> statement-breakpoint
CREATE TABLE `drift_scan` (
	`id` integer PRIMARY KEY NOT NULL,
	`mark` text NOT NULL,
	`computed_at` integer NOT NULL,
	`duration_ms` integer NOT NULL,
	`measurements` integer NOT NULL,
	`result` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `intake_undone` ON `intake` (`id`) WHERE state = 'undone';