using System.Data.Common;
using System.Runtime.CompilerServices;

namespace Rootgap.Store;

/// <summary>Commands with their values, the same for both databases.</summary>
internal static class Sql
{
    public static async Task<int> ExecuteAsync(DbTransaction transaction, string sql, CancellationToken cancel, params (string Name, object Value)[] values)
    {
        await using var command = Command(transaction, sql, values);
        return await command.ExecuteNonQueryAsync(cancel);
    }

    public static DbCommand Command(DbTransaction transaction, string sql, params (string Name, object Value)[] values) => Command(transaction.Connection!, transaction, sql, values);

    private static DbCommand Command(DbConnection connection, DbTransaction? transaction, string sql, (string Name, object Value)[] values)
    {
        var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = sql;
        foreach (var (name, value) in values)
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = name;
            parameter.Value = value;
            command.Parameters.Add(parameter);
        }

        return command;
    }

    /// <summary>The rows of an answer, one at a time: read what is wanted of one before going on.</summary>
    public static async IAsyncEnumerable<DbDataReader> RowsAsync(DbConnection connection, DbTransaction? transaction, string sql, [EnumeratorCancellation] CancellationToken cancel, params (string Name, object Value)[] values)
    {
        await using var command = Command(connection, transaction, sql, values);
        await using var reader = await command.ExecuteReaderAsync(cancel);
        while (await reader.ReadAsync(cancel))
            yield return reader;
    }
}
