using Microsoft.Data.Sqlite;

namespace Athwart.Catalogue;

/// <content>Rig profiles.</content>
public sealed partial class Library
{
    private const string RigProfileColumns = "p.id, p.rig, p.measured, p.version, p.json";

    /// <summary>The profiles of a rig, oldest first; those of one day in the order they were added.</summary>
    public IReadOnlyList<RigProfile> RigProfiles(string rig)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(rig);
        return _database.Query($"SELECT {RigProfileColumns} FROM rig_profiles p WHERE p.rig = $rig ORDER BY p.measured, p.rowid", ReadRigProfile, ("$rig", rig));
    }

    /// <summary>Every profile, by rig and then oldest first.</summary>
    public IReadOnlyList<RigProfile> RigProfiles() =>
        _database.Query($"SELECT {RigProfileColumns} FROM rig_profiles p ORDER BY p.rig, p.measured, p.rowid", ReadRigProfile);

    /// <summary>Adds a profile; earlier ones of the rig stay, to be compared with.</summary>
    public void AddRigProfile(RigProfile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        RequireName(profile.Rig);
        _database.Write(() => _database.Execute(
            "INSERT INTO rig_profiles (id, rig, measured, version, json) VALUES ($id, $rig, $measured, $version, $json)",
            ("$id", profile.Id.Value),
            ("$rig", profile.Rig),
            ("$measured", Rows.Text(profile.Measured)),
            ("$version", profile.Version),
            ("$json", profile.Json)));
    }

    /// <summary>Says with which rig a session was recorded; replaces what was said before.</summary>
    public void AttachRigProfile(SessionId session, RigProfileId profile) => _database.Write(() => _database.Execute(
        "INSERT INTO session_rigs (session_id, profile_id) VALUES ($session, $profile) ON CONFLICT (session_id) DO UPDATE SET profile_id = $profile",
        ("$session", session.Value),
        ("$profile", profile.Value)));

    /// <summary>The profile attached to a session, or null.</summary>
    public RigProfile? RigProfileOf(SessionId session) => _database.Single(
        $"SELECT {RigProfileColumns} FROM session_rigs s JOIN rig_profiles p ON p.id = s.profile_id WHERE s.session_id = $session", ReadRigProfile, ("$session", session.Value));

    private static RigProfile ReadRigProfile(SqliteDataReader row) => new()
    {
        Id = new(row.GetString(0)),
        Rig = row.GetString(1),
        Measured = row.Date(2),
        Version = row.GetInt32(3),
        Json = row.GetString(4),
    };
}
