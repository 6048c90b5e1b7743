using Athwart.Catalogue;
using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.Kits;

/// <summary>Keeps the kit in the library: a row a thing, each as the JSON of <see cref="KitJson"/>.</summary>
public static class KitStore
{
    private const string Microphone = "microphone";
    private const string Recorder = "recorder";
    private const string Protection = "protection";

    /// <summary>The kit of a library.</summary>
    /// <exception cref="LibraryException">The library cannot be used.</exception>
    /// <exception cref="JobException">What it holds of the kit cannot be read.</exception>
    public static Kit Load(string libraryFolder)
    {
        using var library = Library.Open(libraryFolder, LibraryAccess.Read);
        return Load(library);
    }

    /// <summary>The kit of a library that is open.</summary>
    /// <exception cref="JobException">What it holds of the kit cannot be read.</exception>
    public static Kit Load(Library library)
    {
        ArgumentNullException.ThrowIfNull(library);
        var reading = new KitReading();
        foreach (var item in library.KitItems())
            Read(library, item, reading);
        reading.Check();
        if (reading.Faults.Count > 0)
            throw new JobException(JobErrorKind.Storage, reading.Faults[0].ToString(), "The library was changed by other means; remove that thing with 'athwart kit remove' and add it again.");
        return reading.Kit;
    }

    internal static void Save(Library library, Kit kit)
    {
        foreach (var item in kit.Microphones)
            library.SaveKitItem(new(Microphone, item.Name, KitJson.Version, KitJson.Text(indented: false, json => KitJson.Write(json, item))));
        foreach (var item in kit.Recorders)
            library.SaveKitItem(new(Recorder, item.Name, KitJson.Version, KitJson.Text(indented: false, json => KitJson.Write(json, item))));
        foreach (var item in kit.Protections)
            library.SaveKitItem(new(Protection, item.Name, KitJson.Version, KitJson.Text(indented: false, json => KitJson.Write(json, item))));
    }

    private static void Read(Library library, KitItem item, KitReading reading)
    {
        var path = $"kit: {item.Kind} '{item.Name}'";
        if (item.Version > KitJson.Version)
            throw new JobException(JobErrorKind.Storage, $"{library.Folder}, {path}: it was written by a newer version of the program.", "Use that version.");
        JsonKitReader.ReadOne(library.Folder, item.Json, reading, (reader, element) =>
        {
            if (item.Kind.Equals(Microphone, StringComparison.Ordinal))
                reader.Microphone(element, path);
            else if (item.Kind.Equals(Recorder, StringComparison.Ordinal))
                reader.Recorder(element, path);
            else if (item.Kind.Equals(Protection, StringComparison.Ordinal))
                reader.Protection(element, path);
        });
    }
}
