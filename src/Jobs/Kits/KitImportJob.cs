using Athwart.Catalogue;
using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.Kits;

/// <summary>What to take into the kit.</summary>
public sealed record KitImportRequest
{
    /// <summary>The library's folder; made when there is none.</summary>
    public required string Library { get; init; }

    /// <summary>CSV and JSON files, and folders whose CSV and JSON files are taken.</summary>
    public IReadOnlyList<string> Paths { get; init; } = [];

    /// <summary>Whether the invented kit is taken too.</summary>
    public bool Demo { get; init; }

    /// <summary>Whether things of a name that is there already are replaced; otherwise nothing is imported.</summary>
    public bool Replace { get; init; }
}

/// <summary>What became of an import: all of it is in the kit, or nothing.</summary>
/// <param name="Added">Names that are new, in the order read.</param>
/// <param name="Replaced">Names that were there and are replaced.</param>
/// <param name="AlreadyThere">Names that are there and kept the import from being done; replacing was not asked for.</param>
/// <param name="Faults">What is wrong, all of it; any keeps the import from being done.</param>
/// <param name="Unusual">What is kept though it is unusual.</param>
public sealed record KitImportReport(
    IReadOnlyList<string> Added,
    IReadOnlyList<string> Replaced,
    IReadOnlyList<string> AlreadyThere,
    IReadOnlyList<KitFault> Faults,
    IReadOnlyList<KitFault> Unusual)
{
    /// <summary>Whether all of it is in the kit.</summary>
    public bool Done => Faults.Count == 0 && AlreadyThere.Count == 0;
}

/// <summary>Takes files, single things or the invented kit into the kit of a library: all or nothing.</summary>
public static class KitImportJob
{
    /// <summary>Imports files.</summary>
    /// <exception cref="JobException">A file is not there or cannot be read; a folder holds none.</exception>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public static KitImportReport Run(KitImportRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var reading = new KitReading();
        foreach (var path in KitFiles.Find(request.Paths))
            KitFiles.Read(path, KitFiles.Load(path), reading);
        if (request.Demo)
            Take(DemoKit.Kit, "demo kit", reading);
        return Keep(request.Library, reading, request.Replace);
    }

    /// <summary>Adds things that were put together elsewhere, checked in the same way.</summary>
    /// <param name="libraryFolder">The library's folder; made when there is none.</param>
    /// <param name="things">What to add.</param>
    /// <param name="source">What the faults name as their place.</param>
    /// <param name="replace">Whether things of a name that is there already are replaced.</param>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public static KitImportReport Add(string libraryFolder, Kit things, string source, bool replace)
    {
        ArgumentNullException.ThrowIfNull(things);
        var reading = new KitReading();
        Take(things, source, reading);
        return Keep(libraryFolder, reading, replace);
    }

    /// <summary>Imports the text of a file that is not on the disk, such as one that a browser sent.</summary>
    /// <param name="libraryFolder">The library's folder; made when there is none.</param>
    /// <param name="name">What the faults name as the file.</param>
    /// <param name="bytes">The whole file, CSV or JSON.</param>
    /// <param name="replace">Whether things of a name that is there already are replaced.</param>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public static KitImportReport FromBytes(string libraryFolder, string name, ReadOnlySpan<byte> bytes, bool replace)
    {
        var reading = new KitReading();
        KitFiles.Read(name, bytes, reading);
        return Keep(libraryFolder, reading, replace);
    }

    /// <summary>Adds another pattern to a microphone of the kit.</summary>
    /// <exception cref="JobException">There is no such microphone.</exception>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    public static KitImportReport AddSetting(string libraryFolder, string microphone, MicrophoneSetting setting)
    {
        ArgumentNullException.ThrowIfNull(setting);
        var kit = KitStore.Load(libraryFolder);
        var there = kit.Microphones.FirstOrDefault(m => m.Name.Equals(microphone, StringComparison.OrdinalIgnoreCase))
            ?? throw new JobException(JobErrorKind.WrongUse, $"The kit has no microphone '{microphone}'.", kit.Microphones.Count == 0 ? "Add it with 'athwart kit add microphone'." : $"The nearest is '{HeaderText.Nearest(microphone, kit.Microphones.Select(m => m.Name))}'.");
        return Add(libraryFolder, new() { Microphones = [there with { Settings = [.. there.Settings, setting] }] }, "command line", replace: true);
    }

    private static void Take(Kit kit, string source, KitReading reading)
    {
        reading.Microphones.AddRange(kit.Microphones.Select(m => new ReadItem<Microphone>(m, (_, figure) => new(source, Path: figure))));
        reading.Recorders.AddRange(kit.Recorders.Select(r => new ReadItem<Recorder>(r, (_, figure) => new(source, Path: figure))));
        reading.Protections.AddRange(kit.Protections.Select(p => new ReadItem<WindProtection>(p, (_, figure) => new(source, Path: figure))));
    }

    private static KitImportReport Keep(string libraryFolder, KitReading reading, bool replace)
    {
        reading.Check();
        if (reading.Faults.Count > 0)
            return new([], [], [], reading.Faults, reading.Unusual);
        using var library = Library.Open(libraryFolder, LibraryAccess.Create);
        KitImportReport? report = null;
        library.Transaction(() =>
        {
            report = Compare(KitStore.Load(library), reading, replace);
            if (report.Done)
                KitStore.Save(library, reading.Kit);
        });
        return report!;
    }

    private static KitImportReport Compare(Kit before, KitReading reading, bool replace)
    {
        var there = Names(before).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var names = Names(reading.Kit).ToLookup(there.Contains);
        var known = names[true].Select(Plain).ToList();
        return new([.. names[false].Select(Plain)], replace ? known : [], replace ? [] : known, [], reading.Unusual);
    }

    // Kind and name: a recorder may be called as a microphone is.
    private static IEnumerable<string> Names(Kit kit) =>
        kit.Microphones.Select(m => 'm' + m.Name).Concat(kit.Recorders.Select(r => 'r' + r.Name)).Concat(kit.Protections.Select(p => 'p' + p.Name));

    private static string Plain(string kindAndName) => kindAndName[1..];
}
