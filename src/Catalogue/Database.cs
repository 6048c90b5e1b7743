using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <summary>One connection: SQL in, rows out, every failure a <see cref="LibraryException"/>. Safe to share between threads; they take turns.</summary>
internal sealed class Database : IDisposable
{
    private const int SecondsToWait = 30;

    private readonly string _library;
    private readonly SqliteConnection _connection;
    private readonly Lock _turn = new();
    private SqliteTransaction? _transaction;

    private Database(string library, SqliteConnection connection)
    {
        _library = library;
        _connection = connection;
    }

    /// <summary>Opens the file; foreign keys are on, and each commit reaches the disk before it returns.</summary>
    /// <remarks>Statements may use <c>name_key(name)</c>, by which names are alike in any letters' case; SQLite's own comparison knows the letters a to z only.</remarks>
    public static Database Open(string library, string path, SqliteOpenMode mode)
    {
        // Not pooled: a closed library must let go of its files.
        var text = new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = false, ForeignKeys = true, DefaultTimeout = SecondsToWait };
        var database = new Database(library, new SqliteConnection(text.ToString()));
        try
        {
            database.Guard(() =>
            {
                database._connection.Open();
                database._connection.CreateFunction("name_key", (string name) => name.ToUpperInvariant(), isDeterministic: true);
                database.Execute(string.Create(CultureInfo.InvariantCulture, $"PRAGMA busy_timeout = {SecondsToWait * 1000}; PRAGMA synchronous = FULL;"));
                return true;
            });
        }
        catch
        {
            database.Dispose();
            throw;
        }

        return database;
    }

    public int Execute(string sql, params ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        lock (_turn)
        {
            using var command = Command(sql, parameters);
            return Guard(command.ExecuteNonQuery);
        }
    }

    public List<T> Query<T>(string sql, Func<SqliteDataReader, T> row, params ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        lock (_turn)
        {
            using var command = Command(sql, parameters);
            return Guard(() => ReadAll(command, row));
        }
    }

    public T? Single<T>(string sql, Func<SqliteDataReader, T> row, params ReadOnlySpan<(string Name, object? Value)> parameters)
        where T : class
    {
        var rows = Query(sql, row, parameters);
        return rows.Count == 0 ? null : rows[0];
    }

    public long Number(string sql) => Query(sql, static r => r.GetInt64(0))[0];

    /// <summary>All of the body or nothing. A body inside a body joins the outer one. The write lock is taken at once, so a reader never has to be promoted.</summary>
    public T Write<T>(Func<T> body)
    {
        lock (_turn)
        {
            if (_transaction is not null)
                return body();
            using var transaction = Guard(() => _connection.BeginTransaction(deferred: false));
            _transaction = transaction;
            try
            {
                var result = body();
                Guard(() =>
                {
                    transaction.Commit();
                    return true;
                });
                return result;
            }
            finally
            {
                _transaction = null;
            }
        }
    }

    public void Dispose() => _connection.Dispose();

    private static List<T> ReadAll<T>(SqliteCommand command, Func<SqliteDataReader, T> row)
    {
        var rows = new List<T>();
        using var reader = command.ExecuteReader();
        while (reader.Read())
            rows.Add(row(reader));
        return rows;
    }

    private SqliteCommand Command(string sql, ReadOnlySpan<(string Name, object? Value)> parameters)
    {
        var command = _connection.CreateCommand();
#pragma warning disable CA2100 // The SQL is a constant of this assembly at every call; values travel as parameters.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.Transaction = _transaction;
        foreach (var (name, value) in parameters)
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        return command;
    }

    private T Guard<T>(Func<T> work)
    {
        try
        {
            return work();
        }
        catch (SqliteException error)
        {
            throw LibraryException.From(error, _library);
        }
    }
}
