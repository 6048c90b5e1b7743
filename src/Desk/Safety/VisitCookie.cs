using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Athwart.Desk.Safety;

/// <summary>The cookie of a browser that came in by a link: an end date and a signature with this desk's own key.</summary>
/// <remarks>The key outlives the process, so that an open page may go on after the desk was started again; it is written for its owner only.</remarks>
internal sealed class VisitCookie
{
    /// <summary>How long a browser may stay without a new link.</summary>
    public static readonly TimeSpan Lifetime = TimeSpan.FromDays(7);

    private const string KeyFile = "visits.key";
    private const int KeyBytes = 32;

    private readonly TimeProvider _clock;
    private readonly Lazy<byte[]> _key;

    public VisitCookie(DeskOptions options, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(options);
        _clock = clock;
        _key = new(() => KeyIn(options.StateFolder));
        Name = "athwart-desk";
    }

    /// <summary>The cookie's name.</summary>
    public string Name { get; }

    /// <summary>Gives the browser its cookie.</summary>
    public void Set(HttpResponse response)
    {
        ArgumentNullException.ThrowIfNull(response);
        var until = (_clock.GetUtcNow() + Lifetime).ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture);
        var text = until + "." + Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(8));
        response.Cookies.Append(Name, text + "." + Signature(text), new() { HttpOnly = true, SameSite = SameSiteMode.Strict, Path = "/", MaxAge = Lifetime, IsEssential = true });
    }

    /// <summary>Whether the request carries a cookie of ours that is still good.</summary>
    public bool IsIn(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (request.Cookies[Name] is not { Length: < 200 } value || value.LastIndexOf('.') is var dot && dot < 0)
            return false;
        var text = value[..dot];
        return CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(Signature(text)), Encoding.ASCII.GetBytes(value[(dot + 1)..]))
            && long.TryParse(text.Split('.')[0], NumberStyles.None, CultureInfo.InvariantCulture, out var until)
            && until >= _clock.GetUtcNow().ToUnixTimeSeconds();
    }

    private string Signature(string text) => Convert.ToHexStringLower(HMACSHA256.HashData(_key.Value, Encoding.UTF8.GetBytes(text)));

    private static byte[] KeyIn(string folder)
    {
        try
        {
            Directory.CreateDirectory(folder);
            var path = Path.Combine(folder, KeyFile);
            return ReadKey(path) ?? WriteKey(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // No place to keep it: visits then end with the process.
            return RandomNumberGenerator.GetBytes(KeyBytes);
        }
    }

    private static byte[]? ReadKey(string path)
    {
        if (!File.Exists(path))
            return null;
        using var file = File.OpenRead(path);
        var key = new byte[KeyBytes];
        return file.ReadAtLeast(key, KeyBytes, throwOnEndOfStream: false) == KeyBytes ? key : null;
    }

    private static byte[] WriteKey(string path)
    {
        var key = RandomNumberGenerator.GetBytes(KeyBytes);
        var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using var file = new FileStream(path, options);
        file.Write(key);
        return key;
    }
}
