package org.mixaccord.jobs;

import jakarta.enterprise.context.ApplicationScoped;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Optional;
import javax.sql.DataSource;
import org.mixaccord.jobs.JobStatus.State;

/** The two tables of the jobs; statements join the caller's transaction if there is one. */
@ApplicationScoped
class JobTable {
  private final DataSource dataSource;

  JobTable(DataSource dataSource) {
    this.dataSource = dataSource;
  }

  /** Queues a job unless it waits or runs already; true if it was queued now. */
  boolean enqueue(String name, String subject) {
    boolean queued =
        1
            == update(
                "insert into scheduled_tasks (task_name, task_instance, execution_time, picked,"
                    + " version) values (?, ?, now(), false, 1)"
                    + " on conflict (task_name, task_instance) do nothing",
                name,
                subject);
    if (queued) {
      update(
          "insert into jobs (name, subject, state) values (?, ?, 'WAITING')"
              + " on conflict (name, subject) do update set state = 'WAITING', progress = 0,"
              + " attempts = 0, last_reason = null, changed_at = now()",
          name,
          subject);
    }
    return queued;
  }

  /** Counts an attempt; answers its number. */
  int begin(String name, String subject) {
    return query(
            "insert into jobs (name, subject, state, attempts) values (?, ?, 'RUNNING', 1)"
                + " on conflict (name, subject) do update set state = 'RUNNING', progress = 0,"
                + " attempts = jobs.attempts + 1, changed_at = now() returning attempts",
            row -> row.getInt(1),
            name,
            subject)
        .orElseThrow();
  }

  void progress(String name, String subject, double share) {
    update(
        "update jobs set progress = ?, changed_at = now() where name = ? and subject = ?",
        share,
        name,
        subject);
  }

  void end(String name, String subject, State state, String reason) {
    update(
        "update jobs set state = ?, last_reason = coalesce(?, last_reason), changed_at = now(),"
            + " progress = case when ? = 'DONE' then 1 else progress end"
            + " where name = ? and subject = ?",
        state.name(),
        reason,
        state.name(),
        name,
        subject);
  }

  /** An attempt that the server's own end cut short does not count. */
  void takeBack(String name, String subject) {
    update(
        "update jobs set state = 'WAITING', attempts = greatest(0, attempts - 1), changed_at ="
            + " now() where name = ? and subject = ?",
        name,
        subject);
  }

  Optional<JobStatus> find(String name, String subject) {
    return query(
        "select state, progress, attempts, last_reason from jobs where name = ? and subject = ?",
        row ->
            new JobStatus(
                name,
                subject,
                State.valueOf(row.getString(1)),
                row.getDouble(2),
                row.getInt(3),
                Optional.ofNullable(row.getString(4))),
        name,
        subject);
  }

  long unfinished() {
    return query(
            "select count(*) from jobs where state in ('WAITING', 'RUNNING')",
            row -> row.getLong(1))
        .orElseThrow();
  }

  @FunctionalInterface
  private interface Row<T> {
    T read(ResultSet row) throws SQLException;
  }

  private <T> Optional<T> query(String sql, Row<T> reader, Object... values) {
    try (Connection connection = dataSource.getConnection();
        PreparedStatement statement = prepare(connection, sql, values);
        ResultSet rows = statement.executeQuery()) {
      return rows.next() ? Optional.of(reader.read(rows)) : Optional.empty();
    } catch (SQLException e) {
      throw new IllegalStateException("the table of jobs cannot be reached", e);
    }
  }

  private int update(String sql, Object... values) {
    try (Connection connection = dataSource.getConnection();
        PreparedStatement statement = prepare(connection, sql, values)) {
      return statement.executeUpdate();
    } catch (SQLException e) {
      throw new IllegalStateException("the table of jobs cannot be written", e);
    }
  }

  private static PreparedStatement prepare(Connection connection, String sql, Object... values)
      throws SQLException {
    PreparedStatement statement = connection.prepareStatement(sql);
    for (int i = 0; i < values.length; i++) {
      statement.setObject(i + 1, values[i]);
    }
    return statement;
  }
}
