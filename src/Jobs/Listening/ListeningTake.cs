using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Athwart.Catalogue;
using Athwart.Jobs.Roles;
using Athwart.Recordings;

namespace Athwart.Jobs.Listening;

/// <summary>A take of a library opened for listening and looking; any number of threads may read it.</summary>
public sealed class ListeningTake : IDisposable
{
    private readonly Take _recording;

    private ListeningTake(Take recording, CataloguedTake catalogued, RoleAssignment roles, string key) =>
        (_recording, Catalogued, Roles, Key) = (recording, catalogued, roles, key);

    /// <summary>The record in the library.</summary>
    public CataloguedTake Catalogued { get; }

    /// <summary>Which channel is which, and why.</summary>
    public RoleAssignment Roles { get; }

    /// <summary>What its files say.</summary>
    public TakeDescription Description => _recording.Description;

    /// <summary>The samples.</summary>
    public IRecording Recording => _recording;

    /// <summary>
    /// 32 hexadecimal digits that stand for the content: the hashes of the files, how they are put together and which channel is
    /// mid and side. Whatever is made from the take may be kept under this key.
    /// </summary>
    public string Key { get; }

    /// <summary>Opens a take.</summary>
    /// <exception cref="LibraryException">NotFound: there is no such take.</exception>
    /// <exception cref="JobException">Its files are not there, or are not the take any more.</exception>
    /// <exception cref="RecordingException">A file cannot be read.</exception>
    public static ListeningTake Open(Library library, TakeId id, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(library);
        var take = Find(library, id);
        var files = Files(library, take);
        var assembly = TakeAssembler.Assemble([.. files.Select(f => library.FullPath(f.LibraryPath)).Distinct(StringComparer.Ordinal)], cancellation);
        if (assembly.Refused is [var refused, ..])
            throw refused.Error;
        if (assembly.Takes is not [var description] || description.FrameCount != take.Length.Value || description.ChannelCount != take.ChannelCount)
            throw new JobException(JobErrorKind.Storage, $"The files of take '{take.Name}' no longer make the take the library knows.", "Run `athwart verify` on the library.");
        var roles = Decide(library, take, description);
        return new(description.Open(), take, roles, KeyOf(take, files, roles));
    }

    /// <summary>A word that changes whenever the take would open differently; costs no look at the files.</summary>
    internal static string Fingerprint(Library library, TakeId id)
    {
        var take = Find(library, id);
        var session = library.GetSession(take.Session)?.Defaults;
        return string.Create(CultureInfo.InvariantCulture, $"{take.Name}|{take.Length.Value}|{take.Roles}|{session?.MidChannel}|{session?.SideChannel}|{session?.InvertSide}|{string.Join(',', take.Parts)}");
    }

    /// <summary>Closes the files.</summary>
    public void Dispose() => _recording.Dispose();

    private static CataloguedTake Find(Library library, TakeId id) => library.GetTake(id)
        ?? throw new LibraryException(LibraryErrorKind.NotFound, library.Folder, $"There is no take with the id '{id}'.", "Choose a take from the list.");

    private static List<OriginalFile> Files(Library library, CataloguedTake take) =>
        [.. take.Parts.Select(p => library.GetFile(p.File) ?? throw new JobException(JobErrorKind.Storage, $"The library does not know a file of take '{take.Name}' any more.", "Take in the card again."))];

    private static RoleAssignment Decide(Library library, CataloguedTake take, TakeDescription description)
    {
        var session = library.GetSession(take.Session)?.Defaults;
        return RoleReader.Decide(
            description.Tracks,
            description.ChannelCount,
            new(take.Roles.MidChannel, take.Roles.SideChannel, take.Roles.InvertSide),
            session is null ? RoleSettings.None : new(session.MidChannel, session.SideChannel, session.InvertSide));
    }

    private static string KeyOf(CataloguedTake take, List<OriginalFile> files, RoleAssignment roles)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"{roles.MidChannel} {roles.SideChannel} {roles.SideInverted}\n");
        foreach (var (part, file) in take.Parts.Zip(files))
            text.Append(CultureInfo.InvariantCulture, $"{file.Sha256} {part.FirstFrame.Value} {part.Length.Value} {part.FirstChannel} {part.ChannelCount}\n");
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())).AsSpan(0, 16));
    }
}
