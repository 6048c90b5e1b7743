using System.Security.Cryptography;
using System.Text;
using Athwart.Catalogue;
using Athwart.Desk.Work;
using Athwart.Jobs.Cut;
using Athwart.Jobs.Shape;

namespace Athwart.Desk.Sound;

/// <summary>Takes as treated, kept open while somebody listens to them. Safe with any number of threads.</summary>
internal sealed class TreatedRoom(OpenLibrary library) : IDisposable
{
    private const int MostOpen = 4;
    private readonly Lock _lock = new();
    private readonly List<TreatedTake> _open = [];

    /// <summary>The take, or one of its effects, with the treatment it has now.</summary>
    /// <exception cref="LibraryException">There is no such take or effect.</exception>
    /// <exception cref="Athwart.Jobs.JobException">It has no treatment, or the treatment cannot be settled for it.</exception>
    public TreatedTake Find(string take, string? effect, CancellationToken cancellation)
    {
        var version = VersionOf(take, effect);
        lock (_lock)
        {
            if (_open.Find(o => string.Equals(o.Version, version, StringComparison.Ordinal)) is { } found)
                return found;
        }

        // Opened outside the lock: a width that depends on the sound is measured first.
        return Enter(new(version, Open(take, effect, cancellation)));
    }

    /// <summary>Whether anything is done to the take, or to one of its effects.</summary>
    public bool IsTreated(string take, string? effect)
    {
        var found = Take(take);
        var cut = effect is null ? null : Cut(found, effect);
        return library.Read(l => TreatmentShelf.For(l, found.Id, cut?.Id, null), null) is not null;
    }

    public void Dispose()
    {
        lock (_lock)
        {
            _open.ForEach(o => o.Dispose());
            _open.Clear();
        }
    }

    private TreatedTake Enter(TreatedTake opened)
    {
        lock (_lock)
        {
            if (_open.Find(o => string.Equals(o.Version, opened.Version, StringComparison.Ordinal)) is { } first)
                return first;
            _open.Insert(0, opened);
            if (_open.Count > MostOpen)
            {
                _open[^1].Dispose();
                _open.RemoveAt(_open.Count - 1);
            }

            return opened;
        }
    }

    private ShapedTake Open(string id, string? effect, CancellationToken cancellation)
    {
        var take = Take(id);
        var cut = effect is null ? null : Cut(take, effect);
        return ShapedTake.Open(
            new()
            {
                Library = library.Folder,
                Session = take.Session.Value,
                Take = take.Name,
                Effect = cut?.Id,
                SideLevel = cut?.SideLevel,
                From = cut is null ? TakePlace.Start : TakePlace.AtFrame(cut.Range.From.Value),
                To = cut is null ? TakePlace.End : TakePlace.AtFrame(cut.Range.To.Value),
            },
            cancellation);
    }

    // Everything that the sound depends on, in 16 digits.
    private string VersionOf(string id, string? effect)
    {
        var take = Take(id);
        var cut = effect is null ? null : Cut(take, effect);
        string? Json(TreatmentScope scope, string key) => library.Read(l => l.GetTreatment(scope, key), null)?.Json;
        var session = library.Read(l => l.GetSession(take.Session), null);
        var rig = library.Read(l => l.RigProfileOf(take.Session), null);
        var text = $"{id}\n{take.Roles}\n{session?.Defaults}\n{rig?.Id}\n{cut?.Id}\n{cut?.SideLevel}\n{Json(TreatmentScope.Correction, id)}\n{Json(TreatmentScope.Take, id)}\n{(cut is null ? "" : Json(TreatmentScope.Effect, cut.Id.Value))}";
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)).AsSpan(0, 8));
    }

    private CataloguedTake Take(string id) => SoundRoom.IsId(id) && library.Read(l => l.GetTake(new(id)), null) is { } take ? take : throw NotThere("take");

    private Effect Cut(CataloguedTake take, string id) =>
        SoundRoom.IsId(id) && library.Read(l => l.GetEffect(new(id)), null) is { } effect && effect.Take == take.Id ? effect : throw NotThere("cut");

    private LibraryException NotThere(string what) => new(LibraryErrorKind.NotFound, library.Folder, $"There is no such {what}.", "Choose one from the list.");
}
