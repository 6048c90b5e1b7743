using Athwart.Catalogue;
using Athwart.Desk.Work;
using Athwart.Jobs.Listening;

namespace Athwart.Desk.Sound;

/// <summary>The takes of this desk's library, open for listening; opened with the first request, for the library may not be there before.</summary>
internal sealed class SoundRoom(OpenLibrary library) : IDisposable
{
    private const int IdDigits = 12;
    private readonly Lazy<ListeningRoom> _room = new(() => new(library.Folder));

    /// <summary>Pictures are made by as many requests at once as there are processors; the others wait.</summary>
    public SemaphoreSlim Pictures { get; } = new(Environment.ProcessorCount);

    /// <summary>The library.</summary>
    public OpenLibrary Library => library;

    /// <summary>Whether a text can be an id at all: 12 hexadecimal digits, so no path can be asked for.</summary>
    public static bool IsId(string text) => text.Length == IdDigits && text.All(char.IsAsciiHexDigitLower);

    /// <summary>Opens a take.</summary>
    /// <exception cref="LibraryException">There is no such take or no library yet.</exception>
    public TakeLease Rent(string take, CancellationToken cancellation) => IsId(take) && library.Exists
        ? _room.Value.Rent(new(take), cancellation)
        : throw new LibraryException(LibraryErrorKind.NotFound, library.Folder, "There is no such take.", "Choose a take from the list.");

    public void Dispose()
    {
        if (_room.IsValueCreated)
            _room.Value.Dispose();
        Pictures.Dispose();
    }
}
