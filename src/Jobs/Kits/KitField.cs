namespace Athwart.Jobs.Kits;

/// <summary>How the value of a field is written.</summary>
internal enum KitFieldType
{
    Text = 0,
    Number,
    Flag,
    Pattern,
}

/// <summary>A value put into a thing, or why it could not be.</summary>
internal readonly record struct Outcome<T>(T Value, string Message = "", string Remedy = "")
{
    public bool IsFault => Message.Length > 0;
}

/// <summary>One value of a thing: a column in CSV, a member in JSON. Both go through one plain text: numbers with a decimal point, flags as yes and no.</summary>
/// <param name="Figure">The name by which a check speaks of it.</param>
/// <param name="Column">Its column in CSV.</param>
/// <param name="Member">Its member in JSON; null when JSON has none.</param>
/// <param name="Type">How it is written.</param>
/// <param name="Write">Its plain text; null when not known.</param>
/// <param name="Read">The thing with the value of a plain text.</param>
internal sealed record KitField<T>(string Figure, string Column, string? Member, KitFieldType Type, Func<T, string?> Write, Func<T, string, Outcome<T>> Read);
