using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>Cuts that are proposed.</content>
public sealed partial class Library
{
    /// <summary>The proposals of a session, by take, in their order.</summary>
    public IReadOnlyList<StoredProposal> Proposals(SessionId session) => _database.Query(
        "SELECT p.take_id, p.position, p.version, p.json FROM cut_proposals p JOIN takes t ON t.id = p.take_id WHERE t.session_id = $session ORDER BY t.name, p.position",
        ReadProposal,
        ("$session", session.Value));

    /// <summary>Replaces all proposals of a take; none leaves it without.</summary>
    public void ReplaceProposals(TakeId take, IReadOnlyList<StoredProposal> proposals)
    {
        ArgumentNullException.ThrowIfNull(proposals);
        _database.Write(() =>
        {
            _database.Execute("DELETE FROM cut_proposals WHERE take_id = $take", ("$take", take.Value));
            foreach (var proposal in proposals)
            {
                _database.Execute(
                    "INSERT INTO cut_proposals (take_id, position, version, json) VALUES ($take, $position, $version, $json)",
                    ("$take", take.Value),
                    ("$position", proposal.Position),
                    ("$version", proposal.Version),
                    ("$json", proposal.Json));
            }

            return true;
        });
    }

    private static StoredProposal ReadProposal(SqliteDataReader row) => new(new(row.GetString(0)), row.GetInt32(1), row.GetInt32(2), row.GetString(3));
}
