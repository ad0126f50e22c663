/**
 * What was asked for: its states, contradictions and repeats, what follows, and what moved. Pure.
 */
package org.mixaccord.changes;
