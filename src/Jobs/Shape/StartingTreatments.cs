namespace Athwart.Jobs.Shape;

/// <summary>The treatments that come with the program, to begin from.</summary>
public static class StartingTreatments
{
    /// <summary>All, by name.</summary>
    public static IReadOnlyList<Treatment> All { get; } = [];

    /// <summary>The one of this name, whatever the case of its letters; null for none.</summary>
    public static Treatment? Find(string name) => All.FirstOrDefault(t => string.Equals(t.Name, name, StringComparison.OrdinalIgnoreCase));
}
