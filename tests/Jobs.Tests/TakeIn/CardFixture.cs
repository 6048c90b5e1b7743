using System.Security.Cryptography;
using Athwart.Catalogue;
using Athwart.Jobs.TakeIn;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.TakeIn;

/// <summary>A card with a few files of noise, and a library beside it.</summary>
internal sealed class CardFixture : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public CardFixture() => Directory.CreateDirectory(Card);

    public string Card => _folder.File("card");

    public string LibraryFolder => _folder.File("library");

    public string Root => _folder.Path;

    public TakeInRequest Request => RequestFor(Card, LibraryFolder);

    public static TakeInRequest RequestFor(string card, string library) =>
        new() { Sources = [card], LibraryFolder = library, SessionName = "Canal lock", Date = new DateOnly(2026, 11, 25) };

    public string Add(string cardPath, int length, int seed = 1)
    {
        var path = Path.Combine(Card, cardPath);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        var bytes = new byte[length];
        new Random(seed).NextBytes(bytes);
        File.WriteAllBytes(path, bytes);
        return path;
    }

    /// <summary>Sizes around a block and a stretch, sub-folders, a sidecar, an empty file.</summary>
    public void AddUsual()
    {
        Add("TAKES/gates_M.wav", 3_000_001, 1);
        Add("TAKES/gates_S.wav", 3_000_001, 2);
        Add("TAKES/boat.wav", (8 << 20) + 1, 3);
        Add("TAKES/exact block.wav", 512 * 1024, 4);
        Add("take list é.txt", 300, 5);
        Add("empty.log", 0);
    }

    public TakeInReport Run(TakeInDisk? disk = null) => Run(Request, disk);

    public static TakeInReport Run(TakeInRequest request, TakeInDisk? disk = null) =>
        new TakeInJob(TimeProvider.System, disk ?? new TakeInDisk()).Run(request, null, CancellationToken.None);

    public static string HashOf(string path)
    {
        using var stream = File.OpenRead(path);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }

    /// <summary>Every file of the card is in the library once, equal, read-only and recorded, and nothing else is there.</summary>
    public void AssertWhole()
    {
        using var library = Library.Open(LibraryFolder, LibraryAccess.Read);
        var rows = library.Files(library.Sessions().Single().Id);
        var cards = Directory.EnumerateFiles(Card, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(Card, f)).Order(StringComparer.Ordinal).ToList();
        Assert.Equal(string.Join('\n', cards), string.Join('\n', rows.Select(r => r.CardPath).Order(StringComparer.Ordinal)));
        foreach (var row in rows)
        {
            Assert.Equal(FileState.Verified, row.State);
            Assert.Equal(HashOf(Path.Combine(Card, row.CardPath)), row.Sha256);
            Assert.Equal(row.Sha256, HashOf(library.FullPath(row.LibraryPath)));
            Assert.True((File.GetAttributes(library.FullPath(row.LibraryPath)) & FileAttributes.ReadOnly) != FileAttributes.None);
        }

        var onDisk = Directory.EnumerateFiles(library.FullPath("originals"), "*", SearchOption.AllDirectories);
        Assert.Equal(rows.Count, onDisk.Count());
    }

    public void Dispose() => _folder.Dispose();
}
