using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.Kits;

/// <summary>A thing read from a file, and where each of its values stood.</summary>
internal sealed record ReadItem<T>(T Item, Func<int?, string, KitPlace> PlaceOf);

/// <summary>What was read from files before anything is kept.</summary>
internal sealed class KitReading
{
    public List<ReadItem<Microphone>> Microphones { get; } = [];

    public List<ReadItem<Recorder>> Recorders { get; } = [];

    public List<ReadItem<WindProtection>> Protections { get; } = [];

    public List<KitFault> Faults { get; } = [];

    /// <summary>Values that are kept though they are unusual.</summary>
    public List<KitFault> Unusual { get; } = [];

    public Kit Kit => new()
    {
        Microphones = [.. Microphones.Select(m => m.Item)],
        Recorders = [.. Recorders.Select(r => r.Item)],
        Protections = [.. Protections.Select(p => p.Item)],
    };

    public void Fault(KitPlace place, string item, string message, string remedy) => Faults.Add(new(place, item, message, remedy));

    /// <summary>Checks every value and that no name comes twice.</summary>
    public void Check()
    {
        Check(Microphones, m => m.Name, KitChecks.Of);
        Check(Recorders, r => r.Name, KitChecks.Of);
        Check(Protections, p => p.Name, KitChecks.Of);
        InOrderOfRows(Faults);
        InOrderOfRows(Unusual);
    }

    // File by file as they were named, and within each from the top.
    private static void InOrderOfRows(List<KitFault> faults)
    {
        KitFault[] sorted = [.. faults.GroupBy(f => f.Place.File, StringComparer.Ordinal).SelectMany(file => file.OrderBy(f => f.Place.Row ?? 0))];
        faults.Clear();
        faults.AddRange(sorted);
    }

    private void Check<T>(List<ReadItem<T>> items, Func<T, string> name, Func<T, IReadOnlyList<KitRemark>> check)
    {
        var seen = new Dictionary<string, KitPlace>(StringComparer.OrdinalIgnoreCase);
        foreach (var read in items)
        {
            var place = read.PlaceOf(null, "name");
            if (!seen.TryAdd(name(read.Item), place))
                Fault(place, name(read.Item), $"The name is taken already at {seen[name(read.Item)]}.", "Give each its own name; letter case makes no difference.");
            foreach (var remark in check(read.Item))
                (remark.IsRefusal ? Faults : Unusual).Add(new(read.PlaceOf(remark.Setting, remark.Figure), name(read.Item), remark.Message, remark.Remedy));
        }
    }
}
